"""A list sent again: what it adds, removes, changes and renumbers, line by line."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from inventory.core.lists.packing import PackingLine
    from inventory.core.receiving.counts import Count

COMPARED = (
    *("ordered", "shipped", "back_ordered", "unit", "count_rule", "revision", "crate", "bag"),
    *("sub_kit", "description"),
)
"""What may differ between two issues of one line; part, hand and length are the line itself."""


@frozen
class ChangedLine:
    """One line as it was, as it is now, and in what they differ."""

    before: PackingLine
    after: PackingLine
    fields: tuple[str, ...]
    """Names out of `COMPARED`; empty where only the line's number is another."""


@frozen
class ListChanges:
    """The difference between two issues of a list."""

    added: tuple[PackingLine, ...] = ()
    removed: tuple[PackingLine, ...] = ()
    changed: tuple[ChangedLine, ...] = ()
    renumbered: tuple[ChangedLine, ...] = ()
    """Lines with another number on the list, changed otherwise or not."""
    unchanged: int = 0
    """Lines that are the same in all that is compared."""


@frozen
class Conflict:
    """A change that goes against what was counted already; the count stands."""

    line: PackingLine
    """The line as it was."""
    counted: int
    why: str


def list_changes(before: Sequence[PackingLine], after: Sequence[PackingLine]) -> ListChanges:
    """Return what a later issue of a list changes.

    Lines belong together by part, hand and stock length; where a list has several of them, those
    of the same sub-kit and bag first, then of the same sub-kit, then in the order of the list.
    """
    pairs, removed, added = _paired(before, after)
    compared = [ChangedLine(old, new, _differing(old, new)) for old, new in pairs]
    return ListChanges(
        added=tuple(sorted(added, key=_place)),
        removed=tuple(sorted(removed, key=_place)),
        changed=tuple(change for change in compared if change.fields),
        renumbered=tuple(change for change in compared if _renumbered(change)),
        unchanged=sum(not change.fields for change in compared),
    )


def _place(line: PackingLine) -> tuple[str, int, int]:
    return line.sheet, line.row, line.table


def _whole(line: PackingLine) -> tuple[object, ...]:
    return (*_bag(line), *(getattr(line, name) for name in COMPARED))


def _bag(line: PackingLine) -> tuple[object, ...]:
    return (*_sub_kit(line), line.crate, line.bag)


def _sub_kit(line: PackingLine) -> tuple[object, ...]:
    return (*_part(line), line.sub_kit)


def _part(line: PackingLine) -> tuple[object, ...]:
    return line.part, line.hand, line.length


def _paired(
    before: Sequence[PackingLine], after: Sequence[PackingLine]
) -> tuple[list[tuple[PackingLine, PackingLine]], list[PackingLine], list[PackingLine]]:
    """Pair lines from the closest likeness to the loosest; what is left was removed or added."""
    pairs: list[tuple[PackingLine, PackingLine]] = []
    old, new = list(before), list(after)
    for key in (_whole, _bag, _sub_kit, _part):
        found, old, new = _paired_by(key, old, new)
        pairs += found
    pairs.sort(key=lambda pair: _place(pair[1]))
    return pairs, old, new


def _paired_by(
    key: Callable[[PackingLine], tuple[object, ...]],
    old: Iterable[PackingLine],
    new: Iterable[PackingLine],
) -> tuple[list[tuple[PackingLine, PackingLine]], list[PackingLine], list[PackingLine]]:
    waiting: defaultdict[tuple[object, ...], list[PackingLine]] = defaultdict(list)
    for line in old:
        waiting[key(line)].append(line)
    pairs: list[tuple[PackingLine, PackingLine]] = []
    unpaired: list[PackingLine] = []
    for line in new:
        alike = waiting[key(line)]
        if alike:
            pairs.append((alike.pop(0), line))
        else:
            unpaired.append(line)
    return pairs, [line for lines in waiting.values() for line in lines], unpaired


def _differing(old: PackingLine, new: PackingLine) -> tuple[str, ...]:
    return tuple(name for name in COMPARED if getattr(old, name) != getattr(new, name))


def _renumbered(change: ChangedLine) -> bool:
    old, new = change.before, change.after
    if old.item_number or new.item_number:
        return old.item_number != new.item_number
    return (old.sheet, old.row) != (new.sheet, new.row)


def conflicts(changes: ListChanges, counts: Iterable[Count]) -> list[Conflict]:
    """Return the changes that go against counts: lines gone, moved or lowered below the count."""
    counted: defaultdict[tuple[object, ...], int] = defaultdict(int)
    for count in counts:
        where = (count.part, count.hand, count.length, count.crate, count.bag)
        counted[where] += count.pieces_counted
    found = [_gone(line, counted[_where(line)]) for line in changes.removed]
    found += [_moved_or_less(change, counted[_where(change.before)]) for change in changes.changed]
    return [conflict for conflict in found if conflict is not None]


def _where(line: PackingLine) -> tuple[object, ...]:
    return line.part, line.hand, line.length, line.crate, line.bag


def _gone(line: PackingLine, counted: int) -> Conflict | None:
    why = "it was counted, and the later list doesn't have it any more"
    return Conflict(line, counted, why) if counted else None


def _moved_or_less(change: ChangedLine, counted: int) -> Conflict | None:
    if not counted:
        return None
    if {"crate", "bag"} & set(change.fields):
        return Conflict(change.before, counted, "it was counted where the later list has it not")
    if "shipped" in change.fields and counted > change.after.shipped:
        why = f"more were counted than the {change.after.shipped} that the later list has shipped"
        return Conflict(change.before, counted, why)
    return None
