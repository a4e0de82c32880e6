"""Values in the words of the pages."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.amounts import amount_words
from inventory.core.items import Hand
from inventory.core.lengths import show_length
from inventory.core.units import in_unit, unit_by_code
from inventory.documents.ordering import counted
from inventory.jobs.finding_items import item_words

if TYPE_CHECKING:
    from inventory.core.items import Item
    from inventory.core.plan import Need

_SHOWN_IN = {"mass": "GRM", "volume": "MLT"}


def hand_word(hand: Hand | str) -> str:
    """Return LEFT, RIGHT or EITHER SIDE; nothing for a part without a hand."""
    return {Hand.LEFT: "LEFT", Hand.RIGHT: "RIGHT", Hand.EITHER: "EITHER SIDE"}.get(Hand(hand), "")


def kind_words(item: Item) -> str:
    """Return what tells an item from others of its number, its hand left out."""
    words = item_words(item).split()
    return " ".join(word for word in words if word not in {"LEFT", "RIGHT", "EITHER"}).replace(
        "without a hand", ""
    )


def amount(need: Need, quantity: int) -> str:
    """Return a quantity of what a need asks for, with its length or unit."""
    if need.length:
        return f"{quantity} x {show_length(need.length)}"
    if need.measure == "pieces":
        return str(quantity)
    unit = unit_by_code(_SHOWN_IN.get(need.measure, ""))
    return f"{in_unit(quantity, unit)} {unit.word}" if unit else show_length(quantity)


FILTERS = {
    "hand": hand_word,
    "kinds": kind_words,
    "amount": amount,
    "counted": counted,
    "listed": amount_words,
    "long": show_length,
}
