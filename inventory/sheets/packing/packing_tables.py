"""The tables of a sheet: which rows stand under which header, and what its columns are."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.measures.units import find_unit
from inventory.sheets.columns import Column, find_headers
from inventory.sheets.heading_words import words_of
from inventory.sheets.packing.packing_vocabulary import AMOUNTS, COUNTED
from inventory.sheets.packing.profiles import Profile, profile
from inventory.sheets.packing.side_columns import settle_sides

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from inventory.sheets.columns import Vocabulary
    from inventory.sheets.formats.book import Row, Sheet

_SAMPLE = 200
"""Rows looked at to see what a column holds; of a list less than twice as long, all of them."""
_MOSTLY = 0.6
_ENOUGH = 5
"""Filled cells that tell what a column holds against its own heading."""


@dataclass(frozen=True, kw_only=True)
class Table:
    """One table on a sheet: the columns under its headings, by meaning."""

    columns: tuple[Column, ...]
    number: int = 0
    """Which of the tables side by side, from 0 at the left."""
    quantity_unit: str = ""
    """Unit that a quantity's heading names: `QTY (FT)`."""
    length_unit: str = ""

    @cached_property
    def _by_meaning(self) -> Mapping[str, tuple[int, ...]]:
        found: dict[str, tuple[int, ...]] = {}
        for column in self.columns:
            found[column.meaning] = (*found.get(column.meaning, ()), column.place)
        return found

    def places(self, meaning: str) -> tuple[int, ...]:
        """Return the columns of one meaning."""
        return self._by_meaning.get(meaning, ())

    def place(self, meaning: str) -> int:
        """Return the first column of one meaning; -1 where there is none."""
        return self._by_meaning.get(meaning, (-1,))[0]

    @cached_property
    def amounts(self) -> tuple[Column, ...]:
        """The columns whose cells are quantities, the first of each meaning."""
        firsts = {column.meaning: column for column in reversed(self.columns)}
        return tuple(c for c in self.columns if c.meaning in COUNTED and firsts[c.meaning] is c)

    @property
    def span(self) -> tuple[int, int]:
        """The first and the last column."""
        places = [column.place for column in self.columns]
        return min(places), max(places)


@frozen
class Section:
    """Rows under one header: places in the sheet's rows, and the tables they belong to."""

    head: range
    body: range
    tables: tuple[Table, ...]


def sections_of(sheet: Sheet, vocabulary: Vocabulary) -> list[Section]:
    """Return the sections of a sheet in order; rows before the first are the title block."""
    rows = sheet.rows
    headers = find_headers(rows, vocabulary, sheet.merged)
    if not headers:
        return []
    ends = [*(header.first for header in headers[1:]), len(rows)]
    bodies = [range(header.last + 1, end) for header, end in zip(headers, ends, strict=True)]
    alike: dict[tuple[Column, ...], list[Row]] = {}
    for header, body in zip(headers, bodies, strict=True):
        alike.setdefault(header.columns, []).extend(rows[body.start : body.stop])
    tables = {columns: _tables(columns, body) for columns, body in alike.items()}
    return [
        Section(range(header.first, header.last + 1), body, tables[header.columns])
        for header, body in zip(headers, bodies, strict=True)
    ]


def _tables(columns: tuple[Column, ...], rows: Sequence[Row]) -> tuple[Table, ...]:
    groups = side_by_side(columns)
    return tuple(table_of(group, rows, number) for number, group in enumerate(groups))


def side_by_side(columns: Sequence[Column]) -> list[tuple[Column, ...]]:
    """Split the columns where a whole table begins again: its key and an amount come twice."""
    groups: list[list[Column]] = [[]]
    for place, column in enumerate(columns):
        rest = {each.meaning for each in columns[place:]}
        seen = {each.meaning for each in groups[-1]}
        again = column.meaning in seen - {"", "remark", "received", "other", "description"}
        keys = {"part", "description"}
        if again and rest & keys and rest & AMOUNTS and seen & keys and seen & AMOUNTS:
            groups.append(_behind_gap(groups[-1]))
        groups[-1].append(column)
    return [tuple(group) for group in groups]


def _behind_gap(columns: list[Column]) -> list[Column]:
    """Take from a table the columns behind its last gap: they begin the one that comes next."""
    gaps = [n for n, (a, b) in enumerate(pairwise(columns), 1) if b.place - a.place > 1]
    start = gaps[-1] if gaps else len(columns)
    if {each.meaning for each in columns[start:]} & (AMOUNTS | {"part", "description"}):
        return []
    behind = columns[start:]
    del columns[start:]
    return behind


def table_of(columns: Sequence[Column], rows: Sequence[Row], number: int = 0) -> Table:
    """Return a table with its columns settled by what their cells hold."""
    first, last = columns[0].place, columns[-1].place
    headed = {column.place for column in columns}
    extra = [Column(p, "", "") for p in range(first, last) if p not in headed]
    every = sorted((*columns, *extra), key=lambda column: column.place)
    sample = _sample(rows)
    held = {c.place: profile(row.text(c.place) for row in sample) for c in every}
    settled = _settled(every, held)
    kept = tuple(c for c in settled if c.heading or c.meaning)
    return Table(
        columns=kept,
        number=number,
        quantity_unit=_unit_in_heading(kept, AMOUNTS),
        length_unit=_unit_in_heading(kept, {"length"}),
    )


def _sample(rows: Sequence[Row]) -> list[Row]:
    some = rows[:: max(1, len(rows) // (5 * _SAMPLE))]
    filled = [row for row in some if len(row.texts) - row.texts.count("") > 1]
    step = max(1, len(filled) // _SAMPLE)
    return filled[::step]


def _settled(columns: Sequence[Column], held: Mapping[int, Profile]) -> list[Column]:
    for settle in (
        *(settle_sides, _settle_part, _settle_words, _settle_amounts, _settle_hand),
        _settle_unknown,
    ):
        columns = settle(columns, held)
    return list(columns)


def _as(columns: Iterable[Column], place: int, meaning: str) -> list[Column]:
    return [replace(c, meaning=meaning) if c.place == place else c for c in columns]


def _settle_part(columns: Sequence[Column], held: Mapping[int, Profile]) -> Sequence[Column]:
    """Find the part numbers where `ITEM` or `NUMBER` heads them, or nothing does.

    A column headed as the part number gives way only where it holds words, not numbers.
    """

    def like(column: Column) -> float:
        found = held[column.place]
        return found.share(found.part_like + (0 if found.rising else found.codes))

    def named(column: Column) -> bool:
        found = held[column.place]
        return like(column) < _MOSTLY and found.share(found.letters) >= _MOSTLY

    parts = [c for c in columns if c.meaning == "part"]
    numbers = [c for c in parts if not named(c)]
    rest = [c for c in columns if c.meaning in {"item", "", "drawing", "other_part", "remark"}]
    if not numbers:
        described = [c for c in columns if c.meaning == "description"]
        numbers = [max(rest or described, key=like)] if rest or described else []
        numbers = [c for c in (*numbers, *described) if like(c) >= _MOSTLY][:1]
    numbers = numbers or _beside_line_numbers(columns, held)
    if not numbers:
        return columns
    settled = list(columns)
    for column in parts:
        settled = _as(settled, column.place, "part" if column in numbers else "description")
    return _as(settled, numbers[0].place, "part")


def _beside_line_numbers(columns: Sequence[Column], held: Mapping[int, Profile]) -> list[Column]:
    """Find the part numbers under ITEM where another column numbers the lines: LN, ITEM."""
    items = [c for c in columns if c.meaning == "item"]
    named = [c for c in items if "ITEM" in words_of(c.heading)]
    lines = [c for c in items if c not in named and held[c.place].share(held[c.place].whole) > 0]
    other = [c for c in named if held[c.place].codes or not held[c.place].rising]
    return other[:1] if lines else []


def _settle_words(columns: Sequence[Column], held: Mapping[int, Profile]) -> Sequence[Column]:
    """Take `ITEM` or a column without a known heading for the description, if it holds words."""
    if any(c.meaning == "description" for c in columns):
        return columns
    worded = [
        c
        for c in columns
        if c.meaning in {"item", ""}
        and held[c.place].share(held[c.place].letters) >= _MOSTLY
        and held[c.place].share(held[c.place].units) < _MOSTLY
        and held[c.place].share(held[c.place].hands) < _MOSTLY
    ]
    longest = max(worded, key=lambda c: held[c.place].length, default=None)
    return columns if longest is None else _as(columns, longest.place, "description")


def _settle_amounts(columns: Sequence[Column], held: Mapping[int, Profile]) -> Sequence[Column]:
    """Leave out amount columns that are there to be written in; move those that hold words."""
    amounts = [c for c in columns if c.meaning in AMOUNTS]
    numbered = [c for c in amounts if held[c.place].quantities > held[c.place].ticks]
    settled = list(columns)
    for column in amounts:
        found = held[column.place]
        if column not in numbered and numbered and (not found.filled or found.ticks):
            meaning = column.meaning if column.meaning in {"left", "right"} else "received"
            settled = _as(settled, column.place, meaning)
        elif found.filled and found.share(found.quantities) < 1 - _MOSTLY:
            settled = _as(settled, column.place, _worded(column, found, others=bool(numbered)))
    return settled


def _worded(column: Column, found: Profile, *, others: bool) -> str:
    """Return what a column headed as an amount is that holds words: a few words are no proof."""
    if found.share(found.hands) >= _MOSTLY:
        return "hand"
    if found.share(found.units) >= _MOSTLY:
        return "unit"
    return "remark" if others and found.filled >= _ENOUGH else column.meaning


def _settle_hand(columns: Sequence[Column], held: Mapping[int, Profile]) -> Sequence[Column]:
    """Leave out a column headed SIDE that holds other things; find hands under another heading."""
    settled = list(columns)
    for column in columns:
        found = held[column.place]
        others = found.filled >= _ENOUGH and found.share(found.hands) < 1 - _MOSTLY
        if column.meaning == "hand" and others:
            settled = _as(settled, column.place, "other")
    if any(column.meaning == "hand" for column in settled):
        return settled
    for column in settled:
        found = held[column.place]
        plain = found.share(found.sides) >= _MOSTLY and found.sides > 1 and found.both_sides
        if column.meaning in {"item", "other", "drawing"} and plain:
            return _as(settled, column.place, "hand")
    return settled


def _settle_unknown(columns: Sequence[Column], held: Mapping[int, Profile]) -> Sequence[Column]:
    """Read a column without a known heading by its cells: hands, units; else as a remark."""
    settled = list(columns)
    for column in columns:
        found = held[column.place]
        if column.meaning or not found.filled:
            continue
        meanings = {c.meaning for c in settled}
        meaning = "remark"
        handed = found.share(found.hands) >= _MOSTLY and found.hands > 1 and found.both_sides
        if "hand" not in meanings and handed:
            meaning = "hand"
        elif "unit" not in meanings and found.share(found.units) >= 1 - _MOSTLY / 6:
            meaning = "unit"
        elif found.share(found.quantities) >= _MOSTLY:
            meaning = "received" if found.ticks else "other"
        settled = _as(settled, column.place, meaning)
    return settled


def _unit_in_heading(columns: Iterable[Column], meanings: Iterable[str]) -> str:
    wanted = set(meanings)
    for column in columns:
        if column.meaning in wanted:
            words = sorted(words_of(column.heading.replace('"', " IN ")))
            for word in words:
                unit = find_unit(word)
                if unit is not None and unit.measure != "pieces":
                    return word
    return ""
