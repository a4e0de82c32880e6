"""What one cell of an .xlsx sheet says: its type, value and style to a text and a mark."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.sheets.formats.book import BLANK, PLAIN_NUMBER, CellKind, Mark
from inventory.sheets.formats.number_formats import plain_number, shown_number
from inventory.sheets.formats.xlsx_strings import SharedText, shared_text
from inventory.sheets.formats.xlsx_styles import Style

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

PLAIN = Style()
NEVER_CALCULATED = "never calculated"
"""The value of a formula's mark where the file holds no result of it."""

_FIXED_KINDS = {"e": CellKind.ERROR, "b": CellKind.BOOLEAN, "d": CellKind.DATE}


@frozen
class Workbook:
    """What the sheets of one workbook share."""

    texts: Sequence[SharedText] = ()
    styles: Sequence[Style] = ()
    epoch_1904: bool = False


class CellReader:
    """Turns what the XML says of a cell into the text that is seen, and a mark if one is due."""

    def __init__(self, workbook: Workbook) -> None:
        """Read cells of that workbook."""
        self._workbook = workbook
        self.plain_texts = {
            str(index): text.text
            for index, text in enumerate(workbook.texts)
            if not (text.part_struck or text.indent)
        }
        """Shared texts that carry nothing else, by the index that a cell holds."""
        self._odd_styles: Mapping[str, Style] = {
            str(index): style for index, style in enumerate(workbook.styles) if style != PLAIN
        }
        """Styles by the index that a cell holds; only those that say something."""
        self._plain_numbers: dict[str, str] = {}
        self._numbers: dict[tuple[str, str], tuple[str, Mark]] = {}

    def plain_text(self, cell: Mapping[str, str]) -> str | None:
        """Return the text of a cell that is nothing but a text or a number; else None."""
        if "f" in cell:
            return None
        return self.plain_value(cell.get("s"), cell.get("t"), cell.get("v", ""))

    def plain_value(self, style: str | None, kind: str | None, value: str) -> str | None:
        """Return the text of a value of a kind in a style, where that is all there is; else None.

        Whole numbers are plain at once, others from the second time they are met.
        """
        if style in self._odd_styles:
            return None
        if kind == "s":
            return self.plain_texts.get(value)
        if kind not in {None, "n"}:
            return None
        whole = value.isascii() and value.isdigit() and (value[0] != "0" or value == "0")
        return value if whole else self._plain_numbers.get(value)

    def read(self, cell: Mapping[str, str], inline: SharedText | None) -> tuple[str, Mark]:
        """Return the text and the mark of one cell, given its attributes, value and formula."""
        style = self._odd_styles.get(cell.get("s", ""), PLAIN)
        formula = "f" in cell
        if formula and not cell.get("v") and inline is None:
            return self._uncalculated(cell)
        text, mark = self._text(cell, inline, style)
        if style is PLAIN and not formula:
            return text, mark
        return text, replace(
            mark,
            strike=style.strike,
            fill=style.fill,
            bold=style.bold,
            indent=mark.indent + style.indent,
            formula=formula,
        )

    def _uncalculated(self, cell: Mapping[str, str]) -> tuple[str, Mark]:
        return f"={cell['f']}", Mark(kind=CellKind.ERROR, value=NEVER_CALCULATED, formula=True)

    def _text(
        self, cell: Mapping[str, str], inline: SharedText | None, style: Style
    ) -> tuple[str, Mark]:
        kind, value = cell.get("t", "n"), cell.get("v", "")
        if inline is not None:
            return _of_shared(inline)
        if not value:
            return "", BLANK
        if kind == "s":
            return _of_shared(self._workbook.texts[int(value)])
        if kind in _FIXED_KINDS:
            shown = {"0": "FALSE", "1": "TRUE"}.get(value, value) if kind == "b" else value
            return shown, Mark(kind=_FIXED_KINDS[kind], value=shown)
        if kind == "n":
            return self.number(value, style.number_format)
        return _of_shared(shared_text(value))

    def number(self, stored: str, number_format: str = "") -> tuple[str, Mark]:
        """Return how a stored number is shown, and what it is; each is worked out once."""
        known = self._numbers.get((stored, number_format))
        if known is None:
            known = self._number(stored, number_format)
            self._numbers[stored, number_format] = known
            if known[1] is PLAIN_NUMBER:
                self._plain_numbers[stored] = known[0]
        return known

    def _number(self, stored: str, number_format: str) -> tuple[str, Mark]:
        if not number_format and stored.isdigit() and plain_number(stored) == stored:
            return stored, PLAIN_NUMBER
        try:
            shown = shown_number(
                stored, number_format or "General", epoch_1904=self._workbook.epoch_1904
            )
        except (ValueError, ArithmeticError):
            return stored, Mark(kind=CellKind.ERROR, value=stored)
        if shown.error:
            return shown.text, Mark(kind=CellKind.ERROR, value=stored)
        if shown.date:
            return shown.text, Mark(kind=CellKind.DATE, value=stored, number_format=number_format)
        if not number_format and shown.text == stored:
            return stored, PLAIN_NUMBER
        return shown.text, Mark(
            kind=CellKind.NUMBER, value=plain_value(stored), number_format=number_format
        )


def plain_value(stored: str) -> str:
    """Return a stored number as digits, exactly: `1E5` is 100000, `7.0` is 7."""
    number = float(stored)
    if number.is_integer():
        return plain_number(stored)
    return repr(number)


def _of_shared(shared: SharedText) -> tuple[str, Mark]:
    kind = CellKind.TEXT if shared.text else CellKind.BLANK
    return shared.text, Mark(kind=kind, part_struck=shared.part_struck, indent=shared.indent)
