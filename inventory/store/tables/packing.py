"""Tables of packing lists: the list, every row of its sheet, and the lines in them."""

from __future__ import annotations

from sqlalchemy import Column

from inventory.store.tables.base import BySlip, OfKit, Whole, check, index, number, table, to, words


class PackingListColumns(BySlip):
    """A supplier's list as it was taken in."""

    source: Column[str] = words()
    sha256: Column[str] = words()
    supplier: Column[str] = words("")
    order_number: Column[str] = words("")
    revision: Column[str] = words("")
    replaces: Column[int | None] = Column(Whole, nullable=True)


class SourceRowColumns(OfKit):
    """Rows of the sheet that follow each other, with the class they were given and why."""

    packing_list: Column[int] = number()
    sheet: Column[str] = words()
    row: Column[int] = number()
    """The first of them, counted from 1."""
    row_class: Column[str] = words()
    why: Column[str] = words("")
    cells: Column[str] = words()
    """The raw cells as JSON: a list of texts for a lone row, a list of such lists for several."""


class LineColumns(OfKit):
    """One part of one hand on a list."""

    packing_list: Column[int] = number()
    sheet: Column[str] = words()
    row: Column[int] = number()
    part: Column[int] = number()
    printed: Column[str] = words()
    description: Column[str] = words("")
    hand: Column[str] = words()
    ordered: Column[int] = number()
    shipped: Column[int] = number()
    back_ordered: Column[int] = number(0)
    measure: Column[str] = words("pieces")
    unit: Column[str] = words("EA")
    length: Column[int] = number(0)
    count_rule: Column[str] = words("counted")
    crate: Column[str] = words("")
    bag: Column[str] = words("")
    sub_kit: Column[str] = words("")
    revision: Column[str] = words("")
    remark: Column[str] = words("")


packing_list = table(
    "packing_list", PackingListColumns, to("slip", "slip"), to("packing_list", "replaces")
)
source_row = table(
    "source_row",
    SourceRowColumns,
    index("kit", "packing_list"),
    to("packing_list", "packing_list"),
)
line = table(
    "line",
    LineColumns,
    check("quantities", "ordered >= 0 AND shipped >= 0 AND back_ordered >= 0"),
    index("kit", "part"),
    to("packing_list", "packing_list"),
    to("part", "part"),
)
