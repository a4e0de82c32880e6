"""One way to read any file a supplier's office may send: sheets of rows of cells."""

from __future__ import annotations

import hashlib
import stat
from dataclasses import replace
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError
from inventory.core.frozen import frozen
from inventory.sheets.formats.book import Book, Row, Sheet
from inventory.sheets.formats.container import Container
from inventory.sheets.formats.file_kinds import Kind, kind_of
from inventory.sheets.formats.xlsx import read_xlsx

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

MOST_BYTES = 64 * 2**20
"""Of a file; a list of 200,000 lines takes about 8 MiB as .xlsx and 11 MiB as .csv."""
_GAP = 1000
"""Blank rows in a run that are still shown one by one."""


def read_book(path: Path) -> Book:
    """Return the sheets of a file; raises `InventoryError` where it can't be read whole."""
    return book_from_bytes(path.name, _content(path))


def _content(path: Path) -> bytes:
    try:
        status = path.stat()
        if not stat.S_ISREG(status.st_mode):
            raise InventoryError(
                "it is not a file", where=str(path), remedy="Give the path of the list itself"
            )
        if status.st_size > MOST_BYTES:
            raise InventoryError(
                f"it is larger than {MOST_BYTES >> 20} MiB; nothing was read",
                where=str(path),
                remedy="Save only the list to a new file",
            )
        return path.read_bytes()
    except OSError as cause:
        raise InventoryError(
            f"it can't be opened ({cause.strerror or cause})",
            where=str(path),
            remedy="Check the path; close the file in other programs",
        ) from cause


def book_from_bytes(name: str, content: bytes) -> Book:
    """Return the sheets of a file whose bytes are at hand; `name` is used in messages only."""
    kind = kind_of(name, content)
    try:
        found = _read(kind, name, content)
    except (KeyError, IndexError, ValueError, OverflowError, AttributeError) as cause:
        raise InventoryError(
            f"the {kind} file is damaged; nothing was read",
            where=name,
            remedy="Open it in the program it comes from and save it anew",
        ) from cause
    filled = [_without_gaps(sheet) for sheet in found.sheets]
    return Book(
        name=name,
        sha256=hashlib.sha256(content).hexdigest(),
        form=str(kind),
        sheets=tuple(sheet for sheet, _ in filled),
        remarks=(*found.remarks, *(remark for _, said in filled for remark in said)),
    )


@frozen
class _Found:
    sheets: Sequence[Sheet]
    remarks: tuple[str, ...] = ()


def _read(kind: Kind, name: str, content: bytes) -> _Found:
    """Read by the kind; the readers of the rarer kinds are loaded when one comes."""
    match kind:
        case Kind.XLSX:
            return _Found(*read_xlsx(Container(content, name)))
        case Kind.ODS:
            from inventory.sheets.formats.ods import read_ods  # noqa: PLC0415 - see above

            return _Found(read_ods(Container(content, name)))
        case Kind.XLS:
            from inventory.sheets.formats.xls import read_xls  # noqa: PLC0415 - a large library

            return _Found(read_xls(content, name))
        case Kind.PDF:
            return _pdf(name, content)
        case Kind.TEXT:
            return _text(name, content)


def _pdf(name: str, content: bytes) -> _Found:
    from inventory.sheets.formats.aligned_text import aligned_pages  # noqa: PLC0415 - see above
    from inventory.sheets.formats.pdf import pdf_pages  # noqa: PLC0415 - a large library

    pages = aligned_pages(pdf_pages(content, name), name)
    return _Found([Sheet(name=f"page {n}", rows=tuple(rows)) for n, rows in enumerate(pages, 1)])


def _text(name: str, content: bytes) -> _Found:
    from inventory.sheets.formats.aligned_text import aligned_pages  # noqa: PLC0415 - see above
    from inventory.sheets.formats.counted_lines import counted_rows  # noqa: PLC0415 - see above
    from inventory.sheets.formats.plain_text import (  # noqa: PLC0415 - see above
        decode,
        delimited_rows,
        delimiter_of,
    )

    decoded = decode(content, name)
    remarks = (decoded.remark,) if decoded.remark else ()
    delimiter = delimiter_of(decoded.text)
    lines = decoded.text.replace("\f", "\n").splitlines()
    aligned = aligned_pages([lines], name)[0] if delimiter in {"", ","} else []
    headed = _headed(aligned)
    by_hand = delimiter in {"", ","} and not headed
    written = counted_rows(lines, name) if by_hand else None
    if written is not None:
        return _Found(
            [Sheet(name="text", rows=tuple(written))], (*remarks, "lines counted by hand")
        )
    if delimiter and not headed:
        rows = delimited_rows(decoded.text, delimiter, name)
        spoken = {",": "commas", ";": "semicolons", "\t": "tabs", "|": "bars"}[delimiter]
        return _Found([Sheet(name="text", rows=tuple(rows))], (*remarks, f"columns by {spoken}"))
    return _Found([Sheet(name="text", rows=tuple(aligned))], (*remarks, "columns by alignment"))


def _headed(rows: Sequence[Row]) -> bool:
    """Say whether a heading stands over part numbers, one over sides and one over amounts."""
    from inventory.sheets.columns import find_headers  # noqa: PLC0415 - see above
    from inventory.sheets.packing.packing_vocabulary import AMOUNTS, VOCABULARY  # noqa: PLC0415

    found = [{column.meaning for column in each.columns} for each in find_headers(rows, VOCABULARY)]
    return any({"part", "hand"} <= named and named & AMOUNTS for named in found)


def _without_gaps(sheet: Sheet) -> tuple[Sheet, list[str]]:
    """Put the blank rows back between the others; a run of more than 1,000 is only mentioned."""
    rows: list[Row] = []
    remarks: list[str] = []
    following = 1
    for row in sheet.rows:
        if row.number - following > _GAP:
            remarks.append(f"sheet {sheet.name}: rows {following} to {row.number - 1} are blank")
        elif row.number > following:
            rows.extend(Row(number, ()) for number in range(following, row.number))
        rows.append(row)
        following = row.number + 1
    return replace(sheet, rows=tuple(rows)), remarks
