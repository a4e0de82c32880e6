"""Rows above a table, and the rows of sheets that have none: covers, indexes, notes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.lists.packing import RowClass
from inventory.sheets.packing.row_classes import Classed
from inventory.sheets.packing.row_words import (
    is_sentence,
    is_total,
    keyword_heading,
    one_line,
    same_but_numbers,
)

if TYPE_CHECKING:
    from collections.abc import Container, Iterable, Mapping, Sequence

    from inventory.sheets.formats.book import Row


def title_print(row: Row) -> str:
    """Return a row's text as titles are compared: numbers aside."""
    return same_but_numbers(_words(row))


def title_prints(rows: Iterable[Row]) -> frozenset[str]:
    """Return the texts of a title block, to the letter and numbers aside."""
    return frozenset(form(_words(row)) for row in rows for form in (one_line, same_but_numbers))


def _words(row: Row) -> str:
    return " ".join(filter(None, row.texts))


def title_classes(rows: Sequence[Row]) -> list[Classed]:
    """Return the classes of the rows above the first header.

    They are the title block; a crate, bag or sub-kit named right above the header is its title.
    """
    last = next((row for row in reversed(rows) if not row.blank), None)
    return [_title_class(row, is_last=row is last) for row in rows]


def _title_class(row: Row, *, is_last: bool) -> Classed:
    if row.blank:
        return Classed(RowClass.BLANK, "nothing stands in it")
    alone = sum(map(bool, row.texts)) == 1
    opened = keyword_heading(_words(row)) if is_last and alone else None
    if opened is not None and ":" not in row.texts[0]:
        return Classed(RowClass.HEADING, "opens what the header stands over", opened)
    return Classed(RowClass.HEAD, "stands above the table")


def index_classes(rows: Sequence[Row], titles: Container[str]) -> list[Classed]:
    """Return the classes of the rows of a sheet without parts; `titles` stand on other sheets."""
    shared = [place for place, row in enumerate(rows) if title_print(row) in titles]
    first = next((place for place, row in enumerate(rows) if not row.blank), -1)
    titled = first >= 0 and not is_sentence(_words(rows[first]))
    last = max([first if titled else -1, *shared])
    return [
        _index_class(row, rows[place + 1 : place + 2], is_title=place <= last)
        for place, row in enumerate(rows)
    ]


def _index_class(row: Row, following: Sequence[Row], *, is_title: bool) -> Classed:
    if row.blank:
        return Classed(RowClass.BLANK, "nothing stands in it")
    if is_title:
        return Classed(RowClass.HEAD, "the title of a sheet without parts")
    if _names_columns(row, following):
        return Classed(RowClass.HEAD, "names the columns of an index")
    if is_total(next(text for text in row.texts if text)):
        return Classed(RowClass.TOTAL, "begins as a total")
    return Classed(RowClass.NOTE, "the sheet holds no table of parts")


def _names_columns(row: Row, following: Sequence[Row]) -> bool:
    """Say whether a row of words stands over a row of as many cells with numbers among them."""
    words = [text for text in row.texts if text]
    below = [text for each in following for text in each.texts if text]
    worded = all(not text.isdigit() for text in words)
    return len(words) > 1 and worded and any(map(str.isdigit, below)) and len(below) > 1


def box_names(sheet_name: str, facts: Mapping[str, str]) -> dict[str, str]:
    """Return crate, bag and sub-kit that a title block or the sheet's own name gives."""
    names = {kind: facts[kind] for kind in ("crate", "bag", "sub_kit") if kind in facts}
    named = keyword_heading(sheet_name)
    if named is not None:
        names.setdefault(named.kind, named.name)
    return names
