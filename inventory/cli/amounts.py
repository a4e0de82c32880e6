"""Quantities as a person says them: pieces, pieces of a length, grams, millilitres."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.cli.show import kind_words, say
from inventory.core.items import Measure

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from inventory.core.planning.plan import Need
    from inventory.core.record.ledger import Movement
    from inventory.jobs.acts import Bench


def quantity_words(quantity: int, measure: Measure, length: int = 0) -> str:
    """Return a quantity with its unit; of pieces with a length, with that length."""
    if measure == "pieces" and not length:
        return str(quantity)
    from inventory.core.measures.amounts import measured
    from inventory.core.measures.lengths import show_length

    return f"{quantity} x {show_length(length)}" if length else measured(quantity, measure)


def amount(need: Need, quantity: int, *, bare: bool = False) -> str:
    """Return a quantity of what a need asks for, with its unit, and its length unless `bare`."""
    plain = bare and need.measure == "pieces"
    return str(quantity) if plain else quantity_words(quantity, need.measure, need.length)


def needed(need: Need) -> str:
    """Return what a need asks for; AR where the plan says as required."""
    return "AR" if need.as_required else amount(need, need.quantity)


def movement_words(move: Movement, measures: Mapping[str, Measure]) -> str:
    """Return a movement in words: how much, part, kind, from where to where."""
    quantity = of_part(move.quantity, move.item.part, measures)
    told = f"{quantity} x {move.item.part} {kind_words(move.item)}".rstrip()
    return f"{told}: {move.origin} -> {move.destination}"


def say_movements(bench: Bench, moves: Iterable[Movement], before: str = "") -> None:
    """Write movements, each amount in the part's own measure; `before` opens each line."""
    from inventory.jobs.planning.measures import measures

    known = measures(bench)
    for move in moves:
        say(before + movement_words(move, known))


def of_part(quantity: int, part: str, measures: Mapping[str, Measure]) -> str:
    """Return a quantity of a part in the part's own measure."""
    return quantity_words(quantity, measures.get(part, Measure.PIECES))


def amount_typed(bench: Bench, part: str, text: str) -> int:
    """Return a typed amount of a part: whole pieces, or with its unit, as 30ml."""
    from inventory.jobs.planning.measures import amount_typed as amount_typed_

    return amount_typed_(bench, part, text)
