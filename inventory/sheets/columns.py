"""Columns by meaning: header rows found by their words, on one row or two, repeated or not."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.sheets.formats.book import column_name
from inventory.sheets.heading_words import words_of
from inventory.sheets.packing.profiles import is_part_like

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from inventory.sheets.formats.book import Area, Row

LONGEST_HEADING = 48
_MOST_WORDS = 6
_SURELY = 4
"""So many known headings make a header row, however many others stand beside them."""


@dataclass(frozen=True)
class Vocabulary:
    """Which headings mean which column, and which columns a table can't do without."""

    spellings: Mapping[str, Sequence[str]]
    """Headings of each meaning; order of words and their short forms don't matter."""
    needed: tuple[frozenset[str], ...]
    """One meaning out of each set must be in a header row."""
    loose: frozenset[str] = frozenset()
    """Meanings that half of a heading's words suffice for: a mistake there does little harm."""
    exact: Mapping[str, str] = field(default_factory=dict)
    """Headings as printed that a person said the meaning of; they go before the spellings."""

    @cached_property
    def _meanings(self) -> Mapping[frozenset[str], str]:
        return {
            words_of(spelling): meaning
            for meaning, spellings in self.spellings.items()
            for spelling in spellings
        }

    @cached_property
    def _known(self) -> dict[str, str]:
        return {plain_heading(heading): meaning for heading, meaning in self.exact.items()}

    def meaning(self, heading: str) -> str:
        """Return what a heading means; empty where it is no heading of this vocabulary."""
        plain = plain_heading(heading)
        if plain not in self._known:
            self._known[plain] = self._find(plain)
        return self._known[plain]

    def _find(self, heading: str) -> str:
        if not heading or len(heading) > LONGEST_HEADING:
            return ""
        words = words_of(heading)
        whole = self._meanings.get(words)
        if whole is not None or not 1 < len(words) <= _MOST_WORDS:
            return whole or ""
        inside = [known for known in self._meanings if known < words]
        longest = max(map(len, inside), default=0)
        found = {self._meanings[known] for known in inside if len(known) == longest}
        enough = 2 * longest > len(words) or (2 * longest == len(words) and found <= self.loose)
        return found.pop() if len(found) == 1 and enough else ""


def plain_heading(heading: str) -> str:
    """Return a heading on one line, as it is compared with one a person named."""
    return " ".join(heading.split()).upper()


@frozen
class Column:
    """One column under a header row."""

    place: int
    """Counted from 0 for column A."""
    heading: str
    """As printed; both rows of a two-row header joined."""
    meaning: str
    """Empty where it is unknown."""

    @property
    def name(self) -> str:
        """The letters of the column."""
        return column_name(self.place)


@frozen
class Header:
    """A header row, or two rows that make one, and the columns it names."""

    first: int
    """Place of its first row in the sequence of rows that was searched."""
    last: int
    columns: tuple[Column, ...]

    def of(self, meaning: str) -> tuple[Column, ...]:
        """Return the columns of one meaning, from the left."""
        return tuple(column for column in self.columns if column.meaning == meaning)

    def place(self, meaning: str) -> int | None:
        """Return the first column of one meaning; None where there is none."""
        return next((column.place for column in self.columns if column.meaning == meaning), None)


def find_headers(
    rows: Sequence[Row], vocabulary: Vocabulary, merged: Iterable[Area] = ()
) -> list[Header]:
    """Return every header among the rows, from the top: repeated ones, and those on two rows."""
    spans = _spans(merged)
    headers: list[Header] = []
    for place, row in enumerate(rows):
        if row.numbers or (headers and headers[-1].last >= place) or not _can_be_heading(row):
            continue
        if headers and _lists_something(row, headers[-1]):
            continue
        header = _header_at(rows, place, vocabulary, spans)
        if header is not None:
            headers.append(header)
    return headers


def _lists_something(row: Row, header: Header) -> bool:
    """Say whether a bare number stands in a column that an earlier header names, or a part."""
    return any(
        column.meaning
        and (row.text(column.place).isdigit() or _is_part(row.text(column.place), column))
        for column in header.columns
    )


def _is_part(text: str, column: Column) -> bool:
    return column.meaning == "part" and is_part_like(text)


def _can_be_heading(row: Row) -> bool:
    return not row.numbers and sum(map(bool, row.texts)) > 1


def _header_at(
    rows: Sequence[Row], place: int, vocabulary: Vocabulary, spans: Mapping[tuple[int, int], int]
) -> Header | None:
    upper = rows[place]
    alone = _named(upper.texts, vocabulary)
    lower = rows[place + 1] if place + 1 < len(rows) else None
    if lower is not None and _can_be_heading(lower) and not _lists_part(lower, alone):
        joined = _joined(upper, lower, spans)
        both = _named_on_two(joined, upper, lower, vocabulary)
        below = _named(lower.texts, vocabulary)
        single = max(_known(alone), _known(below) if _enough(below, vocabulary) else 0)
        if _enough(both, vocabulary) and _known(both) > single and _known(below):
            return _header(place, place + 1, joined, both)
        if _enough(below, vocabulary) and not _enough(alone, vocabulary):
            return None
    return _header(place, place, upper.texts, alone) if _enough(alone, vocabulary) else None


def _lists_part(row: Row, named: Mapping[int, str]) -> bool:
    """Say whether a part number stands under the heading of part numbers: no second header row."""
    return any(
        meaning == "part" and is_part_like(row.text(place)) for place, meaning in named.items()
    )


def _named(texts: Sequence[str], vocabulary: Vocabulary) -> dict[int, str]:
    return {place: vocabulary.meaning(text) for place, text in enumerate(texts) if text}


def _named_on_two(
    joined: Sequence[str], upper: Row, lower: Row, vocabulary: Vocabulary
) -> dict[int, str]:
    return {
        place: vocabulary.meaning(text)
        or vocabulary.meaning(lower.text(place))
        or vocabulary.meaning(upper.text(place))
        for place, text in enumerate(joined)
        if text
    }


def _known(named: Mapping[int, str]) -> int:
    return len(set(named.values()) - {""})


def _enough(named: Mapping[int, str], vocabulary: Vocabulary) -> bool:
    meanings = set(named.values()) - {""}
    known = sum(map(bool, named.values()))
    usual = 2 * known >= len(named) or known >= _SURELY
    return usual and all(meanings & group for group in vocabulary.needed)


def _joined(upper: Row, lower: Row, spans: Mapping[tuple[int, int], int]) -> list[str]:
    """Return the headings of two rows as one: a heading over several columns goes to each."""
    joined: list[str] = []
    over, until = "", -1
    for column in range(max(len(upper.texts), len(lower.texts))):
        top, bottom = upper.text(column), lower.text(column)
        if top:
            over = top
            until = spans.get((upper.number, column), column if not bottom else 10**6)
        elif column > until or not bottom:
            over = ""
        joined.append(" ".join(filter(None, (top or over, bottom))))
    return joined


def _spans(merged: Iterable[Area]) -> dict[tuple[int, int], int]:
    return {(area.first_row, area.first_column): area.last_column for area in merged}


def _header(first: int, last: int, texts: Sequence[str], named: Mapping[int, str]) -> Header:
    columns = (Column(place, texts[place], meaning) for place, meaning in named.items())
    return Header(first, last, tuple(columns))
