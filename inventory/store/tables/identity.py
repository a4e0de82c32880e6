"""Tables of lots, protective film, and unmarked parts known by their measures."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.store.tables.base import BySlip, check, index, number, table, to, words

if TYPE_CHECKING:
    from sqlalchemy import Column


class LotColumns(BySlip):
    """What is marked on a lot; the newest row of a part and lot that isn't undone counts."""

    part: Column[int] = number()
    lot: Column[str] = words()
    certificate: Column[str] = words("")
    life: Column[str] = words("not marked")
    made: Column[str] = words("")
    months: Column[int] = number(0)
    expires: Column[str] = words("")
    opened: Column[str] = words("")
    open_days: Column[int] = number(0)
    failed_test: Column[int] = number(0)


class FilmColumns(BySlip):
    """Protective film is on parts, or was taken off."""

    part: Column[int] = number()
    hand: Column[str] = words()
    event: Column[str] = words()
    """on or off."""
    day: Column[str] = words()


class IdentificationColumns(BySlip):
    """Somebody holds an unmarked part for one of the list, by its measures; nothing is counted."""

    crate: Column[str] = words()
    bag: Column[str] = words("")
    part: Column[int] = number()
    hand: Column[str] = words()
    pieces: Column[int] = number()
    measured: Column[str] = words()
    """What was measured, as a JSON object in nanometres and holes."""
    tail: Column[int] = number()
    """How likely such measures are for this very part, in millionths (chi-squared tail)."""


class IdentificationEventColumns(BySlip):
    """A second person confirmed or refused it."""

    identification: Column[int] = number()
    event: Column[str] = words()


lot = table("lot", LotColumns, index("kit", "part"), to("slip", "slip"), to("part", "part"))
film = table("film", FilmColumns, to("slip", "slip"), to("part", "part"))
identification = table(
    "identification",
    IdentificationColumns,
    check("pieces", "pieces > 0"),
    to("slip", "slip"),
    to("part", "part"),
)
identification_event = table(
    "identification_event",
    IdentificationEventColumns,
    to("slip", "slip"),
    to("identification", "identification"),
)
