"""The lay-out before a section: every major part found, laid down and told left from right."""

from __future__ import annotations

from collections import Counter
from enum import StrEnum
from typing import TYPE_CHECKING, NamedTuple

from inventory.core.frozen import frozen
from inventory.core.items import State, fits
from inventory.core.planning.filling import Wanted, fill
from inventory.core.planning.open_needs import fitting_hands
from inventory.core.planning.plan import NeedKind, steps_in_order

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from inventory.core.items import Hand, Item
    from inventory.core.planning.plan import Need, Plan


@frozen
class RollEntry:
    """Pieces of one part of one hand to lay out, at one place of the plans."""

    need: Need
    """The first need of it: drawing sheet, find number, description."""
    pieces: int
    steps: tuple[str, ...]
    one_of: tuple[str, ...] = ()
    """Step and word of a group of which one suffices; empty for what is needed in any case."""


class Answer(StrEnum):
    """What to say when a part is laid down."""

    LAID = "laid"
    WRONG_HAND = "wrong hand"
    WORKED = "worked before"
    """Trimmed or drilled: it may be for another place, and never counts as new."""
    ENOUGH = "all of these are laid already"
    FOREIGN = "not of this section"


class Laying(NamedTuple):
    """The answer for one part, and the entry it belongs to or was taken for."""

    answer: Answer
    entry: RollEntry | None


class Missing(NamedTuple):
    """What isn't laid down yet."""

    entry: RollEntry
    pieces: int


def roll_of(plan: Plan, section: str, done: frozenset[str] = frozenset()) -> tuple[RollEntry, ...]:
    """Return the major parts of a section's steps not done, by drawing sheet and find number.

    Major parts are those of kind part: hardware, cut pieces, consumables and tools aren't laid
    out. Needs of one part and hand at one place of the plans are one entry, but for those of
    which only one is used: each of these stands alone.
    """
    wanted = _plain(section)
    steps = [step.code for step in steps_in_order(plan.steps) if _plain(step.section) == wanted]
    gathered: dict[tuple[str, str, str, Hand, tuple[str, ...]], list[Need]] = {}
    for need in plan.needs:
        if need.step in steps and need.step not in done and need.kind is NeedKind.PART:
            group = (need.step, need.one_of) if need.one_of else ()
            key = (need.sheet, need.find_number, need.part, need.hand, group)
            gathered.setdefault(key, []).append(need)
    return tuple(
        RollEntry(
            needs[0],
            sum(need.quantity + need.as_required for need in needs),
            tuple(dict.fromkeys(need.step for need in needs)),
            key[-1],
        )
        for key, needs in gathered.items()
    )


def pieces_of(roll: Iterable[RollEntry]) -> int:
    """Return how many pieces are to be laid out; of parts of which one suffices, the first's."""
    groups: set[tuple[str, ...]] = set()
    pieces = 0
    for entry in roll:
        pieces += entry.pieces if entry.one_of not in groups else 0
        groups |= {entry.one_of} - {()}
    return pieces


def others_of(roll: Iterable[RollEntry], entry: RollEntry) -> tuple[RollEntry, ...]:
    """Return the entries that do as well as this one."""
    if not entry.one_of:
        return ()
    return tuple(each for each in roll if each.one_of == entry.one_of and each is not entry)


def _plain(text: str) -> str:
    return " ".join(text.split()).casefold()


def lay_down(roll: Sequence[RollEntry], laid: Mapping[Item, int], item: Item) -> Laying:
    """Say whether one more piece of an item belongs on the table, given what lies there."""
    of_part = [entry for entry in roll if entry.need.part == item.part]
    if not of_part:
        return Laying(Answer.FOREIGN, None)
    if item.state is State.WORKED:
        return Laying(Answer.WORKED, of_part[0])
    fitting = [entry for entry in of_part if fits(entry.need.hand, item.hand)]
    if not fitting:
        return Laying(Answer.WRONG_HAND, of_part[0])
    before, after = (laid_of(roll, there) for there in (laid, Counter(laid) + Counter({item: 1})))
    full = _complete(roll, before)
    grown = [
        entry
        for entry, less, more in zip(roll, before, after, strict=True)
        if more > less and entry.one_of not in full
    ]
    if not grown:
        return Laying(Answer.ENOUGH, fitting[0])
    lacking = {id(each) for each, pieces in zip(roll, before, strict=True) if pieces < each.pieces}
    return Laying(
        Answer.LAID, next((entry for entry in fitting if id(entry) in lacking), fitting[0])
    )


def laid_of(roll: Sequence[RollEntry], laid: Mapping[Item, int]) -> list[int]:
    """Return how many pieces of each entry are laid down; one for either side fills a gap.

    What is needed in any case is filled first, then the parts of which one suffices.
    """
    there: Counter[tuple[str, Hand]] = Counter()
    for item, pieces in laid.items():
        if item.state is State.NEW:
            there[item.part, item.hand] += pieces
    order = sorted(range(len(roll)), key=lambda place: bool(roll[place].one_of))
    shares = fill(there, [_wanted(roll[place]) for place in order])
    got = [0] * len(roll)
    for place, given in zip(order, shares, strict=True):
        got[place] = sum(share.quantity for share in given)
    return got


def _wanted(entry: RollEntry) -> Wanted[tuple[str, Hand]]:
    need = entry.need
    return Wanted(tuple((need.part, hand) for hand in fitting_hands(need.hand)), entry.pieces)


def _complete(roll: Sequence[RollEntry], got: Sequence[int]) -> set[tuple[str, ...]]:
    """Return the groups of which one part is laid down in full."""
    return {
        entry.one_of
        for entry, pieces in zip(roll, got, strict=True)
        if entry.one_of and pieces >= entry.pieces
    }


def missing_of(roll: Sequence[RollEntry], laid: Mapping[Item, int]) -> tuple[Missing, ...]:
    """Return what isn't laid down yet; of parts of which one suffices, the one that lacks least."""
    got = laid_of(roll, laid)
    full = _complete(roll, got)
    lacking = [
        Missing(entry, entry.pieces - pieces)
        for entry, pieces in zip(roll, got, strict=True)
        if entry.pieces > pieces and entry.one_of not in full
    ]
    least: dict[tuple[str, ...], Missing] = {}
    for each in lacking:
        before = least.get(each.entry.one_of)
        if before is None or each.pieces < before.pieces:
            least[each.entry.one_of] = each
    return tuple(
        each for each in lacking if not each.entry.one_of or least[each.entry.one_of] is each
    )
