"""An .ods spreadsheet to sheets: the text that is shown, and what stands behind it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING
from xml.parsers import expat

from inventory.core.errors import InventoryError
from inventory.core.frozen import frozen
from inventory.sheets.formats.book import BLANK, PLAIN_TEXT, Area, CellKind, Mark, Row, Sheet
from inventory.sheets.formats.texts import LONGEST_CELL, clean, leading_blanks
from inventory.sheets.formats.xlsx_cells import NEVER_CALCULATED
from inventory.sheets.formats.xlsx_sheet import MOST_COLUMNS

if TYPE_CHECKING:
    from collections.abc import Mapping

    from inventory.sheets.formats.container import Container

_NAMESPACES = {
    "urn:oasis:names:tc:opendocument:xmlns:table:1.0": "table",
    "urn:oasis:names:tc:opendocument:xmlns:office:1.0": "office",
    "urn:oasis:names:tc:opendocument:xmlns:text:1.0": "text",
    "urn:oasis:names:tc:opendocument:xmlns:style:1.0": "style",
    "urn:oasis:names:tc:opendocument:xmlns:xsl-fo-compatible:1.0": "fo",
}
_KINDS = {
    "float": CellKind.NUMBER, "percentage": CellKind.NUMBER, "currency": CellKind.NUMBER,
    "date": CellKind.DATE, "time": CellKind.DATE, "boolean": CellKind.BOOLEAN,
}  # fmt: skip
_MOST_REPEATED = 100_000
"""Cells that may repeat one value; more is no list."""


@frozen
class _Look:
    strike: bool = False
    bold: bool = False
    fill: str = ""
    hidden: bool = False


_PLAIN = _Look()


class _OdsReader:
    """Builds sheets while content.xml goes by."""

    def __init__(self) -> None:
        self.sheets: list[Sheet] = []
        self._looks: dict[str, _Look] = {}
        self._style = ""
        self._tags: dict[str, str] = {}
        self._starts = {
            "style:style": self._style_start,
            "style:text-properties": self._text_properties,
            "style:table-cell-properties": self._cell_properties,
            "style:table-properties": self._table_properties,
            "table:table": self._table_start,
            "table:table-column": self._column,
            "table:table-row": self._row_start,
            "table:table-cell": self._cell_start,
            "table:covered-table-cell": self._cell_start,
            "table:table-row-group": self._group_start,
            "office:annotation": self._annotation_start,
            "text:p": self._paragraph,
            "text:s": self._spaces,
            "text:tab": self._spaces,
            "text:line-break": self._paragraph,
        }
        self._ends = {
            "table:table": self._table_end,
            "table:table-row": self._row_end,
            "table:table-cell": self._cell_end,
            "table:covered-table-cell": self._cell_end,
            "table:table-row-group": self._group_end,
            "office:annotation": self._annotation_end,
            "text:p": self._paragraph_end,
        }
        self._reset_table({})

    def _reset_table(self, attributes: Mapping[str, str]) -> None:
        self._name = attributes.get("table:name", "")
        self._table_look = self._looks.get(attributes.get("table:style-name", ""), _PLAIN)
        self._rows: list[Row] = []
        self._merged: list[Area] = []
        self._hidden_columns: set[int] = set()
        self._next_column = self._next_row = self._level = 0
        self._row: Mapping[str, str] = {}
        self._texts: list[str] = []
        self._marks: dict[int, Mark] = {}
        self._place = 0
        self._cell: Mapping[str, str] = {}
        self._pieces: list[str] = []
        self._comment: list[str] = []
        self._in_text = self._in_comment = False

    def start(self, name: str, attributes: dict[str, str]) -> None:
        """Take a start tag."""
        tag = self._tags.get(name)
        if tag is None:
            tag = self._tags[name] = _short(name)
        take = self._starts.get(tag)
        if take is not None:
            take({_short(key): value for key, value in attributes.items()})

    def end(self, name: str) -> None:
        """Take an end tag."""
        take = self._ends.get(self._tags.get(name, ""))
        if take is not None:
            take()

    def characters(self, text: str) -> None:
        """Take characters, which count only inside a paragraph."""
        if self._in_text:
            (self._comment if self._in_comment else self._pieces).append(text)

    def _style_start(self, attributes: Mapping[str, str]) -> None:
        self._style = attributes.get("style:name", "")
        self._looks[self._style] = _PLAIN

    def _text_properties(self, attributes: Mapping[str, str]) -> None:
        line = attributes.get("style:text-line-through-style", "none")
        kind = attributes.get("style:text-line-through-type", line)
        look = self._looks.get(self._style, _PLAIN)
        self._looks[self._style] = replace(
            look,
            strike=look.strike or "none" not in {line, kind} or kind not in {"none", line},
            bold=attributes.get("fo:font-weight") == "bold",
        )

    def _cell_properties(self, attributes: Mapping[str, str]) -> None:
        colour = attributes.get("fo:background-color", "transparent").lstrip("#").upper()
        if colour not in {"TRANSPARENT", "FFFFFF"}:
            look = self._looks.get(self._style, _PLAIN)
            self._looks[self._style] = replace(look, fill=colour)

    def _table_properties(self, attributes: Mapping[str, str]) -> None:
        if attributes.get("table:display") == "false":
            self._looks[self._style] = replace(self._looks[self._style], hidden=True)

    def _table_start(self, attributes: Mapping[str, str]) -> None:
        self._reset_table(attributes)

    def _column(self, attributes: Mapping[str, str]) -> None:
        repeated = int(attributes.get("table:number-columns-repeated", "1"))
        if attributes.get("table:visibility", "visible") != "visible":
            last = min(self._next_column + repeated, MOST_COLUMNS)
            self._hidden_columns.update(range(self._next_column, last))
        self._next_column += repeated

    def _group_start(self, _: Mapping[str, str]) -> None:
        self._level += 1

    def _group_end(self) -> None:
        self._level -= 1

    def _row_start(self, attributes: Mapping[str, str]) -> None:
        self._row = attributes
        self._texts, self._marks, self._place = [], {}, 0

    def _cell_start(self, attributes: Mapping[str, str]) -> None:
        self._cell = attributes
        self._pieces.clear()
        self._comment.clear()

    def _annotation_start(self, _: Mapping[str, str]) -> None:
        self._in_comment = True

    def _annotation_end(self) -> None:
        self._in_comment = False

    def _paragraph(self, _: Mapping[str, str]) -> None:
        self._in_text = True
        pieces = self._comment if self._in_comment else self._pieces
        if pieces:
            pieces.append("\n")

    def _paragraph_end(self) -> None:
        self._in_text = False

    def _spaces(self, attributes: Mapping[str, str]) -> None:
        count = min(int(attributes.get("text:c", "1")), LONGEST_CELL)
        (self._comment if self._in_comment else self._pieces).append(" " * count)

    def _cell_end(self) -> None:
        repeated = int(self._cell.get("table:number-columns-repeated", "1"))
        raw = "".join(self._pieces)
        text, mark = self._value(raw)
        if text or mark.comment:
            self._keep(text, mark, repeated)
        self._place += repeated
        self._span()

    def _keep(self, text: str, mark: Mark, repeated: int) -> None:
        last = self._place + repeated
        if last > MOST_COLUMNS:
            raise InventoryError(
                f"row {self._next_row + 1} reaches further right than {MOST_COLUMNS} columns",
                where=f"sheet {self._name}",
                remedy="Save only the list to a new file",
            )
        self._texts.extend([""] * (last - len(self._texts)))
        for place in range(self._place, last):
            self._texts[place] = text
            if mark != PLAIN_TEXT:
                self._marks[place] = mark

    def _value(self, raw: str) -> tuple[str, Mark]:
        look = self._looks.get(self._cell.get("table:style-name", ""), _PLAIN)
        comment = clean("".join(self._comment))
        text = clean(raw)
        kind = _KINDS.get(self._cell.get("office:value-type", ""), CellKind.TEXT)
        formula = "table:formula" in self._cell
        if text.startswith("#") and text.endswith(("!", "?", "/A")):
            kind = CellKind.ERROR
        value = self._cell.get("office:value", "") if kind is CellKind.NUMBER else ""
        if formula and not text and not self._cell.get("office:value-type"):
            return self._cell["table:formula"], Mark(
                kind=CellKind.ERROR, value=NEVER_CALCULATED, formula=True
            )
        if not text and not comment:
            return "", BLANK
        return text, Mark(
            kind=kind if text else CellKind.BLANK,
            value="" if value == text else value,
            strike=look.strike,
            fill=look.fill,
            bold=look.bold,
            indent=leading_blanks(raw) if raw[:1].isspace() else 0,
            comment=comment,
            formula=formula,
        )

    def _span(self) -> None:
        wide = int(self._cell.get("table:number-columns-spanned", "1"))
        high = int(self._cell.get("table:number-rows-spanned", "1"))
        if wide > 1 or high > 1:
            first, left = self._next_row + 1, self._place - 1
            self._merged.append(Area(first, left, first + high - 1, left + wide - 1))

    def _row_end(self) -> None:
        repeated = int(self._row.get("table:number-rows-repeated", "1"))
        if any(self._texts) or self._marks:
            if repeated > _MOST_REPEATED:
                raise InventoryError(
                    f"row {self._next_row + 1} is repeated {repeated:,} times",
                    where=f"sheet {self._name}",
                    remedy="Save only the list to a new file",
                )
            hidden = self._row.get("table:visibility", "visible") != "visible"
            texts, marks = tuple(self._texts), dict(self._marks)
            for number in range(self._next_row + 1, self._next_row + repeated + 1):
                self._rows.append(Row(number, texts, 0, marks, hidden, self._level))
        self._next_row += repeated

    def _table_end(self) -> None:
        self.sheets.append(
            Sheet(
                name=clean(self._name),
                rows=tuple(self._rows),
                hidden=self._table_look.hidden,
                hidden_columns=frozenset(self._hidden_columns),
                merged=tuple(self._merged),
                filtered=any(row.hidden for row in self._rows),
            )
        )


def _short(name: str) -> str:
    space, _, local = name.rpartition("}")
    return f"{_NAMESPACES.get(space, '?')}:{local}"


def read_ods(container: Container) -> tuple[Sheet, ...]:
    """Return the sheets of an .ods file."""
    reader = _OdsReader()
    parser = expat.ParserCreate(namespace_separator="}")
    parser.buffer_text = True
    parser.StartElementHandler = reader.start
    parser.EndElementHandler = reader.end
    parser.CharacterDataHandler = reader.characters
    container.parse("content.xml", parser)
    return tuple(reader.sheets)
