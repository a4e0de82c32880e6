"""Tables of what people decide and do before a step: set aside, stand-ins, preparation, lay-out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.store.tables.base import BySlip, check, number, table, to, words

if TYPE_CHECKING:
    from sqlalchemy import Column


class SetAsideColumns(BySlip):
    """So many pieces of an item are kept for a step from now on; 0 lets them go."""

    step: Column[str] = words()
    item: Column[int] = number()
    quantity: Column[int] = number()


class StandInColumns(BySlip):
    """Where the plan says a part, another may be used, or may no longer."""

    part: Column[int] = number()
    instead: Column[int] = number()
    step: Column[str] = words("")
    """Only for this step; everywhere where it is empty."""
    decided: Column[str] = words()
    """Whose word it is: plans, maker, supplier, with the place where it stands."""
    allowed: Column[int] = number(1)


class PreparationColumns(BySlip):
    """Pieces were prepared, or are no longer: then their number is negative."""

    item: Column[int] = number()
    word: Column[str] = words()
    """The builder's own word, for instance primed."""
    pieces: Column[int] = number()


class LayOutColumns(BySlip):
    """The parts of a section are laid out and identified."""

    section: Column[str] = words()


class LaidColumns(BySlip):
    """Pieces of an item were laid down and identified."""

    lay_out: Column[int] = number()
    item: Column[int] = number()
    pieces: Column[int] = number()


class LayOutEndColumns(BySlip):
    """A lay-out came to its end, with what was missing then."""

    lay_out: Column[int] = number()
    missing: Column[str] = words()
    """A JSON list of lines: part, hand, pieces, plan page, find number."""


set_aside = table(
    "set_aside",
    SetAsideColumns,
    check("quantity", "quantity >= 0"),
    to("slip", "slip"),
    to("item", "item"),
)
stand_in = table(
    "stand_in", StandInColumns, to("slip", "slip"), to("part", "part"), to("part", "instead")
)
preparation = table(
    "preparation",
    PreparationColumns,
    check("pieces", "pieces <> 0"),
    to("slip", "slip"),
    to("item", "item"),
)
lay_out = table("lay_out", LayOutColumns, to("slip", "slip"))
laid = table(
    "laid",
    LaidColumns,
    check("pieces", "pieces > 0"),
    to("slip", "slip"),
    to("lay_out", "lay_out"),
    to("item", "item"),
)
lay_out_end = table("lay_out_end", LayOutEndColumns, to("slip", "slip"), to("lay_out", "lay_out"))
