"""The columns of a whole book settled: lists without a header, two columns of one meaning."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from inventory.core.lists.packing import ColumnRead, Reading
from inventory.sheets.columns import Column
from inventory.sheets.packing.asking import Doubt
from inventory.sheets.packing.no_amounts import with_amounts
from inventory.sheets.packing.packing_tables import Section, Table, sections_of, table_of
from inventory.sheets.packing.profiles import is_part_like, profile
from inventory.sheets.packing.row_classes import looks_like_part
from inventory.sheets.packing.row_views import view_of
from inventory.sheets.packing.unread_columns import ask_about_unread

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from inventory.sheets.columns import Vocabulary
    from inventory.sheets.formats.book import Row, Sheet
    from inventory.sheets.packing.asking import Asking

_ONE_EACH = (
    *("part", "quantity", "ordered", "shipped", "back_ordered", "unit", "hand", "left", "right"),
    *("length", "extended"),
)
_MOSTLY = 0.5
_LAST_COLUMN = 256
_FEW_ROWS = 3


def settled_sections(
    sheets: Sequence[Sheet], vocabulary: Vocabulary, asking: Asking
) -> list[list[Section]]:
    """Return the sections of each sheet; a sheet without headings takes those of the one before."""
    found = [sections_of(sheet, vocabulary) for sheet in sheets]
    pattern: Table | None = None
    settled: list[list[Section]] = []
    for sheet, sections in zip(sheets, found, strict=True):
        own = sections or _without_header(sheet, pattern, asking, alone=not any(found))
        settled.append([_settled(section, sheet, asking) for section in own])
        ask_about_unread(sheet, settled[-1], vocabulary, asking)
        if own and len(own[0].tables) == 1:
            pattern = settled[-1][0].tables[0]
    return settled


def _settled(section: Section, sheet: Sheet, asking: Asking) -> Section:
    chosen = (_one_each(table, section, sheet, asking) for table in section.tables)
    tables = tuple(with_amounts(table, sheet, asking) for table in chosen)
    return replace(section, tables=tables)


def _one_each(table: Table, section: Section, sheet: Sheet, asking: Asking) -> Table:
    """Ask which of two columns counts that are headed alike and hold different things."""
    for meaning in _ONE_EACH:
        columns = [column for column in table.columns if column.meaning == meaning]
        rows = sheet.rows[section.body.start : section.body.stop]
        if len(columns) < 2 or _alike(columns, rows):  # noqa: PLR2004 - one needs no choice
            continue
        names = {c.name: Reading(c.name, f"column {c.name}, {c.heading}") for c in columns}
        answer = asking.ask(
            Doubt(
                f"column for {meaning.replace('_', ' ')}",
                f"columns {' and '.join(names)} both say {meaning.replace('_', ' ')}",
                tuple(names.values()),
            ),
            sheet.name,
            0,
        )
        chosen = answer or columns[0].name
        dropped = {c.place for c in columns if c.name != chosen}
        table = _dropped(table, dropped)
    return table


def _alike(columns: Sequence[Column], rows: Iterable[Row]) -> bool:
    return all(len({row.text(column.place) for column in columns}) == 1 for row in rows)


def _dropped(table: Table, places: set[int]) -> Table:
    columns = (replace(c, meaning="other") if c.place in places else c for c in table.columns)
    return replace(table, columns=tuple(columns))


def _without_header(
    sheet: Sheet, pattern: Table | None, asking: Asking, *, alone: bool
) -> list[Section]:
    """Return one section for a sheet without headings: by the sheet before, or by its cells."""
    rows = sheet.rows
    whole = range(_first_part(rows, pattern), len(rows)) if pattern else range(0)
    if pattern is not None and len(whole) and _fits(pattern, rows):
        return [Section(range(whole.start, whole.start), whole, (pattern,))]
    if not alone:
        return []
    width = max((len(row.texts) for row in rows), default=0)
    guessed = table_of([Column(place, "", "") for place in range(width)], rows) if width else None
    guessed = _guessed(guessed, rows) if guessed else None
    if guessed is None:
        return []
    start = _first_part(rows, guessed)
    _confirm(guessed, sheet, asking)
    return [Section(range(start, start), range(start, len(rows)), (guessed,))]


def _first_part(rows: Sequence[Row], table: Table | None) -> int:
    if table is None:
        return len(rows)
    for place, row in enumerate(rows):
        view = view_of(row, table, range(_LAST_COLUMN), {})
        if looks_like_part(view) or (is_part_like(view.part) and view.amounts()):
            return place
    return len(rows)


def _fits(table: Table, rows: Sequence[Row]) -> bool:
    views = [view_of(row, table, range(_LAST_COLUMN), {}) for row in rows if not row.blank]
    return sum(map(looks_like_part, views)) >= _MOSTLY * len(views)


def _guessed(table: Table, rows: Sequence[Row]) -> Table | None:
    """Return the table with its first column of plain amounts taken for the quantity."""
    if not table.places("part"):
        return None
    held = {c.place: profile(row.text(c.place) for row in rows) for c in table.columns}
    numbers = [
        c
        for c in table.columns
        if c.meaning in {"other", ""} and held[c.place].quantities and not held[c.place].rising
    ]
    if len(numbers) < 1 or len(rows) < _FEW_ROWS:
        return None
    first = numbers[0].place
    columns = (replace(c, meaning="quantity") if c.place == first else c for c in table.columns)
    return replace(table, columns=tuple(columns))


def _confirm(table: Table, sheet: Sheet, asking: Asking) -> None:
    more = [c.name for c in table.columns if c.meaning == "other"]
    rest = f"; the numbers in {', '.join(more)} count for nothing" if more else ""
    said = [f"{c.name} {c.meaning}" for c in table.columns if c.meaning not in {"", "other"}]
    asking.ask(
        Doubt(
            "columns without headings",
            f"the columns have no headings; taken as {', '.join(said)}{rest}",
            (Reading("yes", "the columns are taken so"),),
        ),
        sheet.name,
        0,
    )


def columns_read(
    sheets: Sequence[Sheet], sections: Sequence[Sequence[Section]]
) -> tuple[ColumnRead, ...]:
    """Return every column of the book and what it was taken for, each once."""
    found = [
        ColumnRead(sheet.name, column.name, column.heading, column.meaning)
        for sheet, own in zip(sheets, sections, strict=True)
        for section in own
        for table in section.tables
        for column in table.columns
    ]
    return tuple(dict.fromkeys(found))
