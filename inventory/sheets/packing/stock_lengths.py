"""How long each piece of stock is: from the length column, the amount or the description."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError
from inventory.core.items import Measure
from inventory.core.measures.lengths import parse_length, parse_section
from inventory.sheets.formats.book import CellKind

if TYPE_CHECKING:
    from collections.abc import Mapping

    from inventory.core.measures.printed_quantity import PrintedQuantity
    from inventory.core.measures.units import Unit
    from inventory.sheets.packing.open_row import OpenRow
    from inventory.sheets.packing.row_asking import RowAsking
    from inventory.sheets.packing.row_views import RowView

_SECTION = re.compile(r"[0-9.][^,;()]*?[xX×][^,;()]*")
_STOCK = re.compile(
    r"\b(?:ANGLE|TUBE|TUBING|BAR|ROD|CHANNEL|EXTRUSION|STRIP|HINGE|CAP|TRACK|STOCK|WIRE|HOSE"
    r"|CABLE|SPAR STRIP|T-SECTION|TEE|Z-SECTION|U-CHANNEL|PIPE|CONDUIT|EDGING|TRIM)\b",
    re.IGNORECASE,
)
_UNITS = {
    "in": "inches", "ft": "feet", "mm": "millimetres", "cm": "centimetres", "m": "metres",
}  # fmt: skip
_NOTHING = re.compile(r"[-–—.]*|N/?A|NONE", re.IGNORECASE)


def length_of(row: OpenRow, cells: Mapping[str, PrintedQuantity], unit: Unit) -> int:
    """Return the nanometres of each piece; 0 where the row isn't stock sold by the piece."""
    if unit.measure is not Measure.PIECES:
        return 0
    by_amount = next((cell.piece_length for cell in cells.values() if cell.piece_length), 0)
    if by_amount:
        return by_amount
    view = row.view
    text = view.text("length")
    if text and row.evidence.lengths_are_of_stock and not _NOTHING.fullmatch(text):
        return _by_column(view, text, row.asking)
    return length_in(view.description)


def _by_column(view: RowView, text: str, asking: RowAsking) -> int:
    spoilt = view.row.mark(view.table.place("length")).kind is CellKind.DATE
    try:
        return 0 if spoilt else parse_length(text, unit=_heading_unit(view))
    except InventoryError as refused:
        if "no unit" in refused.what:
            return _asked_unit(text, asking)
    return _asked(text, asking)


def _asked(text: str, asking: RowAsking) -> int:
    answer = asking.about_row(
        "length", f"{text[:30]!r} can't be read as a length", {"0": "no length is kept"}, _is_length
    )
    return parse_length(answer) if answer and answer != "0" else 0


def _asked_unit(text: str, asking: RowAsking) -> int:
    readings = {unit: f"{text[:12]} is {text[:12]} {name}" for unit, name in _UNITS.items()}
    answer = asking.about_list("unit of the length column", "lengths have no unit", readings)
    return parse_length(text, unit=answer) if answer else 0


def _is_length(answer: str) -> bool:
    try:
        return parse_length(answer) > 0
    except InventoryError:
        return False


def _heading_unit(view: RowView) -> str:
    word = view.table.length_unit.lower().rstrip(".")
    return {"inch": "in", "inches": "in", "feet": "ft", "foot": "ft", '"': "in", "'": "ft"}.get(
        word, word if word in _UNITS else ""
    )


@lru_cache(maxsize=65536)
def length_in(description: str) -> int:
    """Return the length of stock whose section and length the description gives: `X 6'`."""
    found = _SECTION.search(description) if _STOCK.search(description) else None
    if found is None:
        return 0
    try:
        return parse_section(found[0].strip()).length
    except InventoryError:
        return 0
