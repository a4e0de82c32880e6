"""An .xlsx or .xlsm workbook to sheets, in one pass over each part."""

from __future__ import annotations

import posixpath
from typing import TYPE_CHECKING
from xml.parsers import expat

from inventory.core.errors import InventoryError
from inventory.core.frozen import frozen
from inventory.sheets.formats.book import Sheet
from inventory.sheets.formats.xlsx_cells import CellReader, Workbook
from inventory.sheets.formats.xlsx_quick import NotPlainError, quick_rows
from inventory.sheets.formats.xlsx_sheet import SheetReader
from inventory.sheets.formats.xlsx_strings import read_comments, read_strings
from inventory.sheets.formats.xlsx_styles import SEPARATOR, read_styles

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping

    from inventory.sheets.formats.container import Container


@frozen
class _SheetEntry:
    name: str
    relation: str
    hidden: bool


def _elements(
    container: Container, part: str, take: Callable[[str, Mapping[str, str]], None]
) -> None:
    """Hand every start tag of one part to `take`, names without their namespace."""

    def start(name: str, attributes: dict[str, str]) -> None:
        plain = {key.rpartition(SEPARATOR)[2]: value for key, value in attributes.items()}
        take(name.rpartition(SEPARATOR)[2], plain)

    parser = expat.ParserCreate(namespace_separator=SEPARATOR)
    parser.StartElementHandler = start
    container.parse(part, parser)


def _relations(container: Container, part: str) -> dict[str, tuple[str, str]]:
    """Return what a part points to: kind and name of the target, by the relation's id."""
    folder, _, name = part.rpartition("/")
    where = f"{folder}/_rels/{name}.rels".lstrip("/")
    targets: dict[str, tuple[str, str]] = {}

    def take(tag: str, attributes: Mapping[str, str]) -> None:
        if tag == "Relationship" and attributes.get("TargetMode") != "External":
            target = posixpath.normpath(posixpath.join("/", folder, attributes["Target"]))
            kind = attributes["Type"].rpartition("/")[2]
            targets[attributes["Id"]] = (kind, target.lstrip("/"))

    if where in container.names:
        _elements(container, where, take)
    return targets


def _of_kind(relations: Iterable[tuple[str, str]], kind: str) -> str:
    return next((target for found, target in relations if found == kind), "")


def read_xlsx(container: Container) -> tuple[tuple[Sheet, ...], tuple[str, ...]]:
    """Return the sheets of a workbook, and remarks on what was left out."""
    book = _of_kind(_relations(container, "").values(), "officeDocument") or "xl/workbook.xml"
    if book not in container.names:
        raise InventoryError(
            "it is a zip archive without a spreadsheet inside",
            remedy="Give the .xlsx file itself, or unpack the archive first",
        )
    entries: list[_SheetEntry] = []
    flags: dict[str, str] = {}

    def take(tag: str, attributes: Mapping[str, str]) -> None:
        if tag == "sheet":
            hidden = attributes.get("state", "visible") != "visible"
            entries.append(_SheetEntry(attributes["name"], attributes["id"], hidden))
        elif tag == "workbookPr":
            flags["1904"] = attributes.get("date1904", "0")

    _elements(container, book, take)
    relations = _relations(container, book)
    cells = CellReader(
        Workbook(
            read_strings(container, _of_kind(relations.values(), "sharedStrings")),
            read_styles(container, _of_kind(relations.values(), "styles")),
            epoch_1904=flags.get("1904", "0") in {"1", "true"},
        )
    )
    sheets = tuple(
        _sheet(container, entry, relations[entry.relation][1], cells)
        for entry in entries
        if relations[entry.relation][0] == "worksheet"
    )
    return sheets, _remarks(container)


def _sheet(container: Container, entry: _SheetEntry, part: str, cells: CellReader) -> Sheet:
    comments_part = _of_kind(_relations(container, part).values(), "comments")
    comments = read_comments(container, comments_part) if comments_part else {}
    reader = _read_rows(container, part, lambda: SheetReader(entry.name, cells, comments))
    return Sheet(
        name=entry.name,
        rows=tuple(reader.rows),
        hidden=entry.hidden,
        hidden_columns=frozenset(reader.hidden_columns),
        merged=tuple(reader.merged),
        filtered=reader.filtered,
    )


def _read_rows(container: Container, part: str, begin: Callable[[], SheetReader]) -> SheetReader:
    """Read the rows of a sheet by one scan where it is plain throughout, else by an XML parser."""
    reader = begin()
    if not reader.commented:
        parser = container.guarded(reader.parser())
        try:
            reader.rows += quick_rows(
                container.slices(part),
                reader.cells,
                lambda piece: parser.Parse(piece, False),  # noqa: FBT003 - its own signature
            )
            parser.Parse(b"", True)  # noqa: FBT003
        except (NotPlainError, expat.ExpatError):
            reader = begin()
        else:
            return reader
    container.parse(part, reader.parser())
    return reader


def _remarks(container: Container) -> tuple[str, ...]:
    remarks = []
    if any(name.lower().endswith("vbaproject.bin") for name in container.names):
        remarks.append("the workbook holds macros; they were not run, only values were read")
    if any("/externalLinks/" in name for name in container.names):
        remarks.append("some cells take their value from other workbooks; the last value was read")
    return tuple(remarks)
