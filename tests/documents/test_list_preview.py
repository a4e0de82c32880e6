from __future__ import annotations

import re
from dataclasses import replace
from html.parser import HTMLParser

import pytest

from inventory.core.errors import Problem
from inventory.core.items import Hand
from inventory.core.lists.packing import (
    ColumnRead,
    CountRule,
    HeldLine,
    ListedHand,
    PackingLine,
    PackingList,
    Question,
    Reading,
    RowClass,
    SourceRow,
)
from inventory.documents.list_preview import list_page


def row(number: int, row_class: RowClass, *cells: str) -> SourceRow:
    return SourceRow("LIST", number, row_class, "as it stands", cells)


def line(number: int, part: str, hand: Hand = Hand.NONE, pieces: int = 1) -> PackingLine:
    return PackingLine(
        sheet="LIST", row=number, part=part, printed=part, hand=hand, ordered=pieces,
        shipped=pieces, crate="1 OF 2", sub_kit="11 POST",
    )  # fmt: skip


def rows_of_the_list() -> tuple[SourceRow, ...]:
    return (
        row(1, RowClass.HEAD, "PART", "QTY", "NOTE"),
        row(2, RowClass.PART, "T2-1", "2", "<script>alert(1)</script>"),
        row(3, RowClass.BLANK),
        row(4, RowClass.PART, "T2-3", "2", "to follow"),
        row(5, RowClass.PART, "T2-4", "AR"),
        row(6, RowClass.PART, "T2-5", "1", "a\nb"),
        row(7, RowClass.NOTE, "thank you"),
    )


@pytest.fixture(scope="module")
def page() -> str:
    waiting = PackingLine(
        sheet="LIST", row=4, part="T2-3", printed="T2-3", ordered=2, shipped=0, back_ordered=2
    )
    required = PackingLine(
        sheet="LIST", row=5, part="T2-4", printed="T2-4", ordered=0, shipped=0,
        count_rule=CountRule.AS_REQUIRED,
    )  # fmt: skip
    held = HeldLine(
        line=line(6, "T2-5"),
        hand=ListedHand.UNKNOWN,
        unknown=frozenset({"hand", "ordered"}),
        questions=("LIST row 6 hand",),
    )
    readings = (Reading("left", "all pieces are left"), Reading("right", "all pieces are right"))
    return list_page(
        PackingList(
            source="<list>.xlsx",
            sha256="0" * 64,
            supplier="WHERRY & LANE",
            rows=rows_of_the_list(),
            lines=(
                replace(line(2, "T2-1", Hand.LEFT), paired=True),
                replace(line(2, "T2-1", Hand.RIGHT), paired=True),
                waiting,
                required,
            ),
            held=(held,),
            questions=(
                Question("LIST", 6, "which hand?", readings, "LIST row 6 hand", (("LIST", 6),)),
                Question("", 0, "columns?", (), "columns without headings"),
            ),
            problems=(Problem("no such answer", "question 'x'", "Answer left or right"),),
            columns=(ColumnRead("LIST", "A", "PART", "part"), ColumnRead("LIST", "D", "", "")),
            remarks=("columns by tabs",),
            form="text",
        )
    )


class Rows(HTMLParser):
    """Collects table rows as lists of cell texts."""

    def __init__(self) -> None:
        super().__init__()
        self.rows: list[list[str]] = []
        self.tags: list[str] = []

    def handle_starttag(self, tag: str, _attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        if tag == "tr":
            self.rows.append([])
        elif tag in {"td", "th"}:
            self.rows[-1].append("")

    def handle_data(self, data: str) -> None:
        if self.rows and self.rows[-1]:
            self.rows[-1][-1] += data


def rows_of(page: str) -> list[list[str]]:
    reader = Rows()
    reader.feed(page)
    return reader.rows


def test_every_row_of_the_sheet_stands_with_its_class(page: str) -> None:
    shown = [cells[:2] for cells in rows_of(page) if cells and cells[0].isdigit()]
    assert shown == [
        ["1", "head"],
        ["2", "part"],
        ["3", "blank"],
        ["4", "part"],
        ["5", "part"],
        ["6", "ASKED: part"],
        ["7", "note"],
    ]


def test_parts_say_what_they_were_taken_for(page: str) -> None:
    taken = {cells[0]: cells[2] for cells in rows_of(page) if cells and cells[0].isdigit()}
    assert taken["2"] == "T2-1, 2 EA, 1 LEFT and 1 RIGHT, crate 1 OF 2"
    assert taken["4"] == "T2-3, 0 of 2, 2 to follow EA"
    assert taken["5"] == "T2-4, as required"
    assert taken["6"] == "T2-5, 1 of ?, 0 to follow EA, hand asked, crate 1 OF 2"


def test_problems_and_questions_come_before_the_rows(page: str) -> None:
    assert page.index("no such answer") < page.index("which hand?") < page.index("thank you")
    assert "left: all pieces are left" in page


def test_cells_cannot_run_anything(page: str) -> None:
    reader = Rows()
    reader.feed(page)
    assert "script" not in reader.tags
    assert "&lt;list&gt;.xlsx" in page


def test_page_needs_nothing_from_anywhere_else(page: str) -> None:
    assert re.findall(r"(?:src|href)=|url\(|https?:", page) == []


def test_list_without_doubts_says_so() -> None:
    assert "Nothing is asked" in list_page(PackingList(source="a.csv", sha256="0"))


def test_one_hand_is_said_in_capitals() -> None:
    left = line(1, "T2-1", Hand.LEFT)
    either = line(2, "T2-2", Hand.EITHER)
    rows = (row(1, RowClass.PART, "T2-1"), row(2, RowClass.PART, "T2-2"))
    page = list_page(PackingList(source="a", sha256="0", lines=(left, either), rows=rows))
    assert "LEFT, crate" in page
    assert "either side, crate" in page
