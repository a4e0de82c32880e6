"""Sheets that may not belong to the list: hidden ones, and those that repeat the others."""

from __future__ import annotations

from collections import defaultdict
from fractions import Fraction
from typing import TYPE_CHECKING

from inventory.core.items import part_key
from inventory.core.lists.packing import Reading
from inventory.sheets.packing.asking import Doubt

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from inventory.sheets.formats.book import Sheet
    from inventory.sheets.packing.asking import Asking
    from inventory.sheets.packing.row_results import PartRow, SheetRows

_FEW_PARTS = 5
"""A sheet that repeats fewer parts than this may be chance."""
_READINGS = (
    Reading("read", "its parts are on the list"),
    Reading("leave out", "its rows are kept and count for nothing"),
)


class DoubtfulSheets:
    """Asks once for each doubtful sheet whether its parts count."""

    def __init__(self, sheets: Sequence[Sheet], read: Sequence[SheetRows], asking: Asking) -> None:
        """Look at all sheets of a book."""
        self._asking = asking
        self._doubts: dict[str, Doubt] = {}
        filled = [each for each in read if each.parts]
        for sheet, rows in zip(sheets, read, strict=True):
            if sheet.hidden and rows.parts and len(filled) > 1:
                what = f"the sheet {sheet.name} is hidden: do its parts belong to the list?"
                self._doubts[sheet.name] = Doubt(f"hidden sheet {sheet.name}", what, _READINGS)
        repeated = _repeated(sheets, read)
        if repeated and repeated not in self._doubts:
            what = f"the sheet {repeated} repeats what the other sheets list: does it count too?"
            self._doubts[repeated] = Doubt(f"repeating sheet {repeated}", what, _READINGS)

    @property
    def any(self) -> bool:
        """Say whether there is a doubtful sheet at all."""
        return bool(self._doubts)

    def question(self, part: PartRow) -> str:
        """Return the id of the open question that holds a part row; empty where none does."""
        doubt = self._doubts.get(part.sheet)
        if doubt is None:
            return ""
        answer = self._asking.ask(doubt, part.sheet, part.row.number)
        return doubt.id if answer is None else ""

    def left_out(self, part: PartRow) -> bool:
        """Say whether a person said that the row's sheet doesn't count."""
        doubt = self._doubts.get(part.sheet)
        return doubt is not None and self._asking.ask(doubt, part.sheet, 0) == "leave out"


def _repeated(sheets: Sequence[Sheet], read: Sequence[SheetRows]) -> str:
    """Return the last sheet whose parts and quantities are those of all others together."""
    if sum(bool(rows.parts) for rows in read) < 2:  # noqa: PLR2004 - one sheet repeats nothing
        return ""
    sums = [_sums(rows.parts) for rows in read]
    every: defaultdict[str, Fraction] = defaultdict(Fraction)
    for own in sums:
        for part, number in own.items():
            every[part] += number
    for sheet, own in zip(reversed(sheets), reversed(sums), strict=True):
        whole = len(own) == len(every) and all(2 * n == every[part] for part, n in own.items())
        if len(own) >= _FEW_PARTS and whole:
            return sheet.name
    return ""


def _sums(parts: Sequence[PartRow]) -> Mapping[str, Fraction]:
    sums: defaultdict[str, Fraction] = defaultdict(Fraction)
    for part in parts:
        amounts = part.view.amounts()
        names = ("quantity", "ordered", "extended", "shipped")
        number = next((amounts[name].number for name in names if name in amounts), Fraction(0))
        sums[part_key(part.number)] += number
    return sums
