"""Whether pieces may be recorded as issued to a step."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError
from inventory.core.frozen import frozen
from inventory.core.items import Hand, Measure, fits
from inventory.core.measures.amounts import measured

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from inventory.core.items import Item
    from inventory.core.planning.plan import Need
    from inventory.core.planning.workshop import StandIn

_WORDS = {
    Hand.LEFT: "LEFT",
    Hand.RIGHT: "RIGHT",
    Hand.EITHER: "one that fits EITHER side",
    Hand.NONE: "one WITHOUT a hand",
}


class NotNeededError(InventoryError):
    """The step asks for no such part."""


class WrongHandError(InventoryError):
    """The step asks for the same part of the other hand."""


class MeasuredError(InventoryError):
    """The part is measured out, not counted."""


class TooManyError(InventoryError):
    """The step asks for fewer pieces; a person may record them all the same."""


@frozen
class StepAsking:
    """What one step asks for, and what lies in it already."""

    step: str
    needs: tuple[Need, ...]
    issued: Mapping[Item, int]
    stand_ins: tuple[StandIn, ...] = ()
    by_piece: bool = False
    """Whether whole pieces are meant, as a scanner says them."""


def check_issue(asking: StepAsking, item: Item, pieces: int, *, over: bool = False) -> None:
    """Refuse what the plan doesn't ask for: another part, another hand or length, too many.

    `over` lets more pieces through than the step needs; nothing else.
    """
    step = f"step {asking.step}"
    named = _named(asking, item)
    if not named:
        raise NotNeededError(
            f"{step} asks for no {item.part}",
            where=step,
            remedy="Compare the number with the plans. Scan the step that uses it.",
        )
    handed = [need for need in named if fits(need.hand, item.hand)]
    if not handed:
        raise WrongHandError(
            f"this is {_the(item.hand)}, {step} needs {_WORDS[named[0].hand]}",
            where=f"{step}, {item.part}",
            remedy=f"Put it back and take {_the(named[0].hand)}.",
        )
    fitting = [need for need in handed if need.length in (0, item.length)]
    if not fitting:
        raise NotNeededError(
            f"{step} asks for {item.part} of another length",
            where=step,
            remedy="Take the piece of the length on the plans, or cut it.",
        )
    if asking.by_piece and fitting[0].measure is not Measure.PIECES:
        raise MeasuredError(
            f"{item.part} is measured out, not counted: how much of it?",
            where=step,
            remedy=f"Say how much: kitwright issue {item.part} AMOUNT --step {asking.step}, or on "
            "the page of its bin.",
        )
    if not over:
        _check_pieces(asking, fitting, item, pieces)


def _named(asking: StepAsking, item: Item) -> list[Need]:
    accepted = {item.part} | {
        decision.part
        for decision in asking.stand_ins
        if decision.instead == item.part and decision.step in ("", asking.step)
    }
    return [need for need in asking.needs if need.part in accepted]


def _check_pieces(asking: StepAsking, needs: Sequence[Need], item: Item, pieces: int) -> None:
    if any(need.as_required for need in needs):
        return
    wanted = sum(need.quantity + need.spare for need in needs)
    there = sum(
        quantity
        for other, quantity in asking.issued.items()
        if (other.part, other.hand) == (item.part, item.hand)
        and (needs[0].length == 0 or other.length == item.length)
    )
    measure = needs[0].measure
    if there + pieces > wanted:
        raise TooManyError(
            f"step {asking.step} needs {measured(wanted, measure)} of {_handed(item)}, "
            f"{measured(there, measure)} are issued: {measured(pieces, measure)} more would be "
            "too many",
            where=f"step {asking.step}",
            remedy="Count again. If they are used there all the same, record them with --over.",
        )


def _handed(item: Item) -> str:
    """Name the part with its hand: of the other hand the step may still need some."""
    hand = f" {item.hand.value.upper()}" if item.hand in (Hand.LEFT, Hand.RIGHT) else ""
    return f"{item.part}{hand}"


def _the(hand: Hand) -> str:
    """Name the one to take by its own hand: `the right one` would be read as a hand."""
    return f"the {hand.value.upper()} one" if hand in (Hand.LEFT, Hand.RIGHT) else _WORDS[hand]
