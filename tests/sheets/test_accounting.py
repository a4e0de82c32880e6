"""Rows in are rows out, for sheets that nobody thought of and files spoilt at random."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from inventory.sheets.formats.book import Book, Row, Sheet
from inventory.sheets.packing.packing_list import packing_list_of
from tests.fuzz.packing_lists import run
from tests.sheets.accounting import faults

WORDS = st.sampled_from(
    [
        *("", "", "", "PART NUMBER", "DESCRIPTION", "QTY", "ORD", "SHP", "B/O", "HAND", "U/M"),
        *("T2-1", "T2-2-L", "T2-2-R", "AN3-5A", "T2-3 L&R", "T2-4-1/-2", "00412", "412"),
        *("RIB, LH", "PLATE", "STATIC PORT", "KIT, HINGE", "BAG 7", "SUB-KIT 2", "CRATE 1 OF 2"),
        *("1", "2", "3", "0", "4 (2L 2R)", "1/1", "AR", "REF", "x", "TOTAL", "PAGE 1 OF 2", "-"),
        *("EA", "PR", "M", "FT", "LH", "RH", "L&R", "2 TO FOLLOW", "N/S", "note: see below."),
    ]
)
ROWS = st.lists(st.lists(WORDS, max_size=7), max_size=14)


def book_of(*sheets: list[list[str]]) -> Book:
    made = []
    for number, rows in enumerate(sheets):
        kept = [tuple(row) for row in rows]
        cut = [row[: max((i + 1 for i, text in enumerate(row) if text), default=0)] for row in kept]
        made.append(
            Sheet(name=f"S{number}", rows=tuple(Row(n, row) for n, row in enumerate(cut, 1)))
        )
    return Book(name="made", sha256="0", form="xlsx", sheets=tuple(made))


@given(st.lists(ROWS, min_size=1, max_size=2))
@settings(max_examples=250, deadline=None)
def test_rows_in_are_rows_out(sheets: list[list[list[str]]]) -> None:
    book = book_of(*sheets)
    assert faults(book, packing_list_of(book)) == []


HEAD = ["ITEM", "PART NUMBER", "DESCRIPTION", "HAND", "QTY", "U/M", "REMARKS"]


@given(st.lists(st.lists(WORDS, min_size=7, max_size=7), max_size=12))
@settings(max_examples=250, deadline=None)
def test_rows_in_are_rows_out_under_a_header(rows: list[list[str]]) -> None:
    book = book_of([HEAD, *rows])
    assert faults(book, packing_list_of(book)) == []


def test_spoilt_files_are_read_whole_or_refused_in_words() -> None:
    outcomes, wrong = run(count=150, seed=3)
    assert [how for how, _, _ in wrong] == []
    assert sum(outcomes.values()) == 150


def test_a_lost_row_is_noticed() -> None:
    book = book_of([HEAD, ["1", "T2-1", "PLATE", "", "2", "EA", ""]])
    other = book_of([HEAD])
    assert faults(book, packing_list_of(other)) != []
