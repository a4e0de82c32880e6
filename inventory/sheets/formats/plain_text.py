"""Text files: their encoding, and whether they are delimited or set out by blanks."""

from __future__ import annotations

import csv
import io
import re
from collections import Counter
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError
from inventory.core.frozen import frozen
from inventory.sheets.formats.book import PLAIN_TEXT, Mark, Row, Sheet
from inventory.sheets.formats.texts import LONGEST_CELL, clean, leading_blanks
from inventory.sheets.formats.xlsx_sheet import MOST_COLUMNS

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

_DELIMITERS = ",;\t|"
_SAMPLE = 400
"""Rows looked at to tell the delimiter."""
_WIDE_GAP = re.compile(r" {2,}")
_TABLE_WIDE = 3
"""Pieces with wide gaps between them that make a line of a table."""
_MARKS = (("utf-8-sig", b"\xef\xbb\xbf"), ("utf-16", b"\xff\xfe"), ("utf-16", b"\xfe\xff"))


@frozen
class Decoded:
    """A file's text, and what is worth saying about how it was decoded."""

    text: str
    remark: str = ""


def decode(content: bytes, name: str) -> Decoded:
    """Return the text of a file: by its mark, as UTF-8, as UTF-16, else as Windows 1252."""
    for encoding, mark in _MARKS:
        if content.startswith(mark):
            return Decoded(_decoded(content, encoding, name))
    half = _half_of_zeros(content)
    if half:
        return Decoded(
            _decoded(content, half, name), f"read as {half.upper()}, which it doesn't say"
        )
    if b"\0" in content:
        raise InventoryError(
            "it is neither a spreadsheet nor text; nothing was read",
            where=name,
            remedy="Save the list as .xlsx or .csv",
        )
    try:
        return Decoded(content.decode("utf-8"))
    except UnicodeDecodeError:
        return Decoded(
            _decoded(content, "cp1252", name),
            "it isn't UTF-8; read as Windows 1252: check signs such as ½ and °",
        )


def _half_of_zeros(content: bytes) -> str:
    """Return the UTF-16 order of Latin text without a mark; empty where it isn't that."""
    sample = content[:4096]
    if len(sample) < 4:  # noqa: PLR2004 - too short to tell
        return ""
    for encoding, start in (("utf-16-le", 1), ("utf-16-be", 0)):
        half = sample[start::2]
        if half.count(0) > 0.7 * len(half):
            return encoding
    return ""


def _decoded(content: bytes, encoding: str, name: str) -> str:
    try:
        return content.decode(encoding)
    except UnicodeDecodeError as cause:
        raise InventoryError(
            f"its text can't be read as {encoding}: byte {cause.start}",
            where=name,
            remedy="Save it as UTF-8",
        ) from cause


def delimiter_of(text: str) -> str:
    """Return what parts the columns: comma, semicolon, tab or bar; empty where nothing does."""
    first = text.split("\n", 1)[0].strip().lower()
    if first.startswith("sep=") and len(first) == len("sep=,"):
        return first[-1]
    scores = {sign: _score(text, sign) for sign in _DELIMITERS}
    best = max(scores, key=lambda sign: scores[sign])
    return best if scores[best] > max(0.0, _score_of_blanks(text)) else ""


def _score_of_blanks(text: str) -> float:
    """Return the same for columns set out by runs of blanks; commas can stand inside words."""
    lines = [line.strip() for line in text.splitlines()[:_SAMPLE] if line.strip()]
    widths = Counter(len(_WIDE_GAP.split(line)) for line in lines)
    several = sum(count for width, count in widths.items() if width >= _TABLE_WIDE)
    if not lines or 2 * several < len(lines):
        return 0.0
    pieces = sum(width * count for width, count in widths.items() if width >= _TABLE_WIDE)
    return pieces / several * several / len(lines)


def _score(text: str, sign: str) -> float:
    """Return how evenly a sign parts the rows: columns times the share of rows that have them."""
    rows = _sample_rows(text, sign)
    widths = Counter(len(row) for row in rows if any(cell.strip() for cell in row))
    several = {width: count for width, count in widths.items() if width > 1}
    if not several:
        return 0.0
    width, count = max(several.items(), key=lambda each: each[1] * each[0])
    share = count / sum(widths.values())
    return width * share if share >= 0.3 or sign == "\t" else 0.0  # noqa: PLR2004 - a title block


def _sample_rows(text: str, sign: str) -> list[list[str]]:
    rows: list[list[str]] = []
    try:
        for row in csv.reader(io.StringIO(text, newline=""), delimiter=sign):
            rows.append(row)
            if len(rows) >= _SAMPLE:
                break
    except csv.Error:
        pass
    return rows


def delimited_rows(text: str, delimiter: str, name: str) -> list[Row]:
    """Return the rows of a delimited text, counted as a spreadsheet would show them."""
    lines = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    rows: list[Row] = []
    begun = 1
    try:
        for number, cells in enumerate(lines, 1):
            if number == 1 and len(cells) <= 2 and cells and cells[0].lower().startswith("sep="):  # noqa: PLR2004
                rows.append(Row(1, ()))
            else:
                rows.append(row_of(number, cells, name))
            begun = lines.line_num + 1
    except csv.Error as cause:
        raise InventoryError(
            f"line {begun}: a quote is opened and not closed as it should be ({cause})",
            where=name,
            remedy="Open the file in a spreadsheet program and save it anew",
        ) from cause
    while rows and rows[-1].blank:
        rows.pop()
    return rows


def row_of(number: int, cells: Iterable[str], name: str) -> Row:
    """Return a row of texts, set-in cells marked so."""
    texts: list[str] = []
    marks: dict[int, Mark] = {}
    for place, cell in enumerate(cells):
        text = clean(cell)
        texts.append(text)
        if text and cell[:1].isspace():
            marks[place] = Mark(indent=leading_blanks(cell))
    while texts and not texts[-1]:
        texts.pop()
    if len(texts) > MOST_COLUMNS or any(len(text) > LONGEST_CELL for text in texts):
        raise InventoryError(
            f"line {number} is wider than any list",
            where=name,
            remedy="Save only the list to a new file",
        )
    kept = {place: mark for place, mark in marks.items() if mark != PLAIN_TEXT}
    return Row(number, tuple(texts), 0, kept)


def sheet_of(name: str, rows: Sequence[Row]) -> Sheet:
    """Return rows as the one sheet of a text file."""
    return Sheet(name=name, rows=tuple(rows))
