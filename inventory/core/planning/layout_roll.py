"""The lay-out before a section: every major part found, laid down and told left from right."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING, NamedTuple

from inventory.core.items import State, fits
from inventory.core.planning.filling import Wanted, fill
from inventory.core.planning.open_needs import fitting_hands
from inventory.core.planning.plan import NeedKind, steps_in_order

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from inventory.core.items import Hand, Item
    from inventory.core.planning.plan import Need, Plan


@dataclass(frozen=True, slots=True)
class RollEntry:
    """Pieces of one part of one hand to lay out, at one place of the plans."""

    need: Need
    """The first need of it: drawing sheet, find number, description."""
    pieces: int
    steps: tuple[str, ...]


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
    out. Needs of one part and hand at one place of the plans are one entry.
    """
    wanted = _plain(section)
    steps = [step.code for step in steps_in_order(plan.steps) if _plain(step.section) == wanted]
    gathered: dict[tuple[str, str, str, Hand], list[Need]] = {}
    for need in plan.needs:
        if need.step in steps and need.step not in done and need.kind is NeedKind.PART:
            key = (need.sheet, need.find_number, need.part, need.hand)
            gathered.setdefault(key, []).append(need)
    return tuple(
        RollEntry(
            needs[0],
            sum(need.quantity + need.as_required for need in needs),
            tuple(dict.fromkeys(need.step for need in needs)),
        )
        for needs in gathered.values()
    )


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
    before = missing_of(roll, laid)
    after = missing_of(roll, Counter(laid) + Counter({item: 1}))
    if sum(each.pieces for each in after) == sum(each.pieces for each in before):
        return Laying(Answer.ENOUGH, fitting[0])
    lacking = {id(each.entry) for each in before}
    return Laying(
        Answer.LAID, next((entry for entry in fitting if id(entry) in lacking), fitting[0])
    )


def missing_of(roll: Sequence[RollEntry], laid: Mapping[Item, int]) -> tuple[Missing, ...]:
    """Return what isn't laid down yet; a piece for either side counts where one lacks."""
    there: Counter[tuple[str, Hand]] = Counter()
    for item, pieces in laid.items():
        if item.state is State.NEW:
            there[item.part, item.hand] += pieces
    wanted = [
        Wanted(
            tuple((entry.need.part, hand) for hand in fitting_hands(entry.need.hand)),
            entry.pieces,
        )
        for entry in roll
    ]
    got = [sum(share.quantity for share in shares) for shares in fill(there, wanted)]
    return tuple(
        Missing(entry, entry.pieces - pieces)
        for entry, pieces in zip(roll, got, strict=True)
        if entry.pieces > pieces
    )
