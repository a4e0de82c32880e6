"""From typed options to what the jobs understand."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.cli.options import hand_of

if TYPE_CHECKING:
    from inventory.jobs.finding_items import Asked


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
    from inventory.core.lengths import parse_length
    from inventory.jobs.finding_items import Asked

    return Asked(
        part=part,
        hand=hand_of(hand),
        lot=lot,
        length=parse_length(length) if length else None,
        state=State.WORKED if worked else None,
        new=new,
    )
