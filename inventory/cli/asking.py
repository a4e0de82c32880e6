"""From typed options to what the jobs understand."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.cli.options import hand_of

if TYPE_CHECKING:
    from inventory.jobs.acts import Bench
    from inventory.jobs.bench.finding_items import Asked, Taking


def asked(
    part: str,
    hand: str = "",
    lot: str | None = None,
    length: str = "",
    *,
    worked: bool = False,
    new: bool = False,
) -> Asked:
    """Return the part that was typed, with all that was said of it."""
    from inventory.core.items import State
    from inventory.core.measures.lengths import parse_length
    from inventory.jobs.bench.finding_items import Asked

    return Asked(
        part=part,
        hand=hand_of(hand),
        lot=lot,
        length=parse_length(length) if length else None,
        state=State.WORKED if worked else None,
        new=new,
    )


def taking(bench: Bench, wanted: Asked, amount: str, place: str) -> Taking:
    """Return what is to be taken from where, as it was typed: `12` or `30ml`, `crate 1/H1`."""
    from inventory.cli.amounts import amount_typed
    from inventory.jobs.bench.finding_items import Taking
    from inventory.jobs.bench.place_names import place_named

    return Taking(wanted, amount_typed(bench, wanted.part, amount), place_named(bench, place))
