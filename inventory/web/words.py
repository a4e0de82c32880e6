"""Values in the words of the pages."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from inventory.core.counted import counted
from inventory.core.items import Hand, Measure
from inventory.core.measures.amounts import amount_words, measured
from inventory.core.measures.lengths import show_length
from inventory.core.planning.shelf_life import Freshness
from inventory.jobs.bench.finding_items import item_words
from inventory.jobs.planning.measures import measures
from inventory.jobs.planning.shelf_lives import lots

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import date

    from inventory.core.items import Item
    from inventory.core.parts.hardware import HardwareNumber
    from inventory.core.planning.plan import Need
    from inventory.jobs.acts import Bench


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
    return measured(quantity, need.measure)


def quantities(bench: Bench) -> Callable[[Item, int], str]:
    """Return how to say a quantity of an item in its part's measure.

    The store is asked once, when the first quantity is said.
    """

    @cache
    def known() -> dict[str, Measure]:
        return dict(measures(bench))

    def much(item: Item, quantity: int) -> str:
        return measured(quantity, known().get(item.part, Measure.PIECES))

    return much


def lives(bench: Bench, today: date) -> Callable[[Item], str]:
    """Return how to say that an item's lot is past its date or soon will be; empty where neither.

    The store is asked once, when the first lot is met.
    """

    @cache
    def known() -> dict[tuple[str, str], str]:
        said = {Freshness.EXPIRED: "PAST ITS DATE", Freshness.SOON: "expires"}
        return {
            (each.lot.part, each.lot.lot): f"{said[each.state]} {each.lot.shelf.last_use}"
            for each in lots(bench, today)
            if each.state in said
        }

    def life(item: Item) -> str:
        return known().get((item.part, item.lot), "") if item.lot else ""

    return life


def number_words(number: HardwareNumber) -> list[str]:
    """Return what a number of standard hardware says, bit by bit; nothing for any other number."""
    told = [
        str(fact) if fact.words.startswith(fact.name) else f"{fact.name} {fact}"
        for fact in number.facts
    ]
    return [number.item, *told] if number.item else []


FILTERS = {
    "hand": hand_word,
    "kinds": kind_words,
    "amount": amount,
    "counted": counted,
    "listed": amount_words,
    "long": show_length,
}
