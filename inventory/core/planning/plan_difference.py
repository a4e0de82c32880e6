"""What a revised plan changes."""

from __future__ import annotations

from collections import defaultdict, deque
from dataclasses import fields
from enum import StrEnum
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.items import Hand
from inventory.core.planning.plan import Need, Step

if TYPE_CHECKING:
    from collections.abc import Hashable, Iterator, Mapping, Sequence

    from inventory.core.planning.plan import Plan


class Altered(StrEnum):
    """What became of a step or a need."""

    ADDED = "added"
    REMOVED = "removed"
    CHANGED = "changed"


@frozen(kw_only=True)
class PlanChange:
    """One difference between two plans."""

    altered: Altered
    step: str
    part: str = ""
    """As printed; empty where the step itself was altered."""
    hand: Hand = Hand.NONE
    details: tuple[str, ...] = ()
    """For a change: each field in words, with what it was and what it is."""
    old: Step | Need | None = None
    new: Step | Need | None = None


_UNSEEN = frozenset({"row", "where", "printed"})
"""What says nothing about the work itself."""


def plan_changes(old: Plan, new: Plan) -> tuple[PlanChange, ...]:
    """Return what changed from the old plan to the new one: steps first, then needs.

    A need is told again by step, part, hand and length, and by find number among several; rows
    that merely moved are no change.
    """
    steps = _paired(
        [(step.code, step) for step in old.steps], [(step.code, step) for step in new.steps]
    )
    needs = _paired(_keyed(old.needs), _keyed(new.needs))
    return (
        *(_change(before, now) for before, now in steps if _differ(before, now)),
        *(_change(before, now) for before, now in needs if _differ(before, now)),
    )


def _keyed(needs: Sequence[Need]) -> list[tuple[Hashable, Need]]:
    return [((need.step, need.part, need.hand, need.length), need) for need in needs]


def _paired(
    old: Sequence[tuple[Hashable, Step | Need]], new: Sequence[tuple[Hashable, Step | Need]]
) -> Iterator[tuple[Step | Need | None, Step | Need | None]]:
    """Yield what belongs together in the order of the new plan, then what is gone."""
    left = _by_key(old)
    partners = _partners(left, new)
    for place, (_, entry) in enumerate(new):
        yield partners.get(place), entry
    for entries in left.values():
        for gone in entries:
            yield gone, None


def _by_key(
    entries: Sequence[tuple[Hashable, Step | Need]],
) -> defaultdict[Hashable, deque[Step | Need]]:
    by_key: defaultdict[Hashable, deque[Step | Need]] = defaultdict(deque)
    for key, entry in entries:
        by_key[key].append(entry)
    return by_key


def _partners(
    left: Mapping[Hashable, deque[Step | Need]], new: Sequence[tuple[Hashable, Step | Need]]
) -> dict[int, Step | Need]:
    """Take out of `left` the old entry of each new one: of several the likest first."""
    partners: dict[int, Step | Need] = {}
    for alike in (_same, _same_find_number, lambda _old, _new: True):
        for place, (key, entry) in enumerate(new):
            found = next((old for old in left.get(key, ()) if alike(old, entry)), None)
            if place not in partners and found is not None:
                partners[place] = found
                left[key].remove(found)
    return partners


def _same(old: Step | Need, new: Step | Need) -> bool:
    return not _details(old, new)


def _same_find_number(old: Step | Need, new: Step | Need) -> bool:
    return (
        isinstance(old, Need)
        and isinstance(new, Need)
        and (old.sheet, old.find_number) == (new.sheet, new.find_number)
    )


def _differ(old: Step | Need | None, new: Step | Need | None) -> bool:
    return old is None or new is None or bool(_details(old, new))


def _details(old: Step | Need, new: Step | Need) -> tuple[str, ...]:
    return tuple(
        f"{field.name.replace('_', ' ')}: {_shown(before)} -> {_shown(now)}"
        for field in fields(new)
        if field.name not in _UNSEEN
        for before, now in [(getattr(old, field.name), getattr(new, field.name))]
        if before != now
    )


def _shown(value: object) -> str:
    if isinstance(value, tuple):
        return ", ".join(map(str, value)) or "nothing"
    if isinstance(value, bool):
        return "yes" if value else "no"
    return "nothing" if value == "" else str(value)


def _change(old: Step | Need | None, new: Step | Need | None) -> PlanChange:
    entry = new or old
    altered = Altered.ADDED if old is None else Altered.CHANGED if new else Altered.REMOVED
    details = _details(old, new) if old and new else ()
    if isinstance(entry, Need):
        return PlanChange(
            altered=altered,
            step=entry.step,
            part=entry.printed or entry.part,
            hand=entry.hand,
            details=details,
            old=old,
            new=new,
        )
    code = entry.code if entry else ""
    return PlanChange(altered=altered, step=code, details=details, old=old, new=new)
