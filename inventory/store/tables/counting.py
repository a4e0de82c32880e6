"""Tables of receipt: what a person counted or weighed, when a crate was opened and closed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.store.tables.base import BySlip, check, index, number, table, to, words

if TYPE_CHECKING:
    from sqlalchemy import Column


class CountColumns(BySlip):
    """Pieces a person counted of one item in one crate or bag."""

    crate: Column[str] = words()
    bag: Column[str] = words("")
    part: Column[int] = number()
    printed: Column[str] = words()
    hand: Column[str] = words()
    lot: Column[str] = words("")
    length: Column[int] = number(0)
    good: Column[int] = number(0)
    damaged: Column[int] = number(0)
    wrong: Column[int] = number(0)
    about: Column[int] = number(0)
    method: Column[str] = words("counted")
    remarks: Column[str] = words("[]")
    """What holds for all its pieces, as a JSON list."""
    revision: Column[str] = words("")
    expires: Column[str] = words("")
    instead_of: Column[str] = words("")
    person: Column[str] = words("")
    recount: Column[int] = number(0)
    """1 where this count takes the place of the earlier ones of the same item, crate and bag."""
    note: Column[str] = words("")


class WeighingColumns(BySlip):
    """How a weighed count was found; masses in nanograms."""

    count: Column[int] = number()
    readings: Column[str] = words()
    """The sample's net masses, as a JSON list."""
    pieces_each: Column[int] = number()
    spread: Column[int] = number(0)
    """Standard deviation of a piece over the mean in millionths; 0 where nobody knew it."""
    gross: Column[int] = number()
    tare: Column[int] = number(0)
    step: Column[int] = number()
    inside: Column[int] = number(0)
    """1 where the sample's pieces belong to the batch and weren't weighed again with it."""


class CrateEventColumns(BySlip):
    """A crate was opened or closed."""

    crate: Column[str] = words()
    event: Column[str] = words()


count = table(
    "count",
    CountColumns,
    check("pieces", "good >= 0 AND damaged >= 0 AND wrong >= 0"),
    index("kit", "crate"),
    index("kit", "slip"),
    to("slip", "slip"),
    to("part", "part"),
)
crate_event = table("crate_event", CrateEventColumns, to("slip", "slip"))
weighing = table(
    "weighing",
    WeighingColumns,
    check("masses", "gross > 0 AND tare >= 0 AND step > 0"),
    to("slip", "slip"),
    to("count", "count"),
)
