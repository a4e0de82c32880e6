"""Parts that stand under a title which says that they come later."""

from __future__ import annotations

import pytest

from tests.sheets.written_lists import read_sheets, sheet_of

HEAD = ["PART NUMBER", "DESCRIPTION", "QTY"]
SENT = ["T2-1", "RIB", "2"]


@pytest.mark.parametrize(
    "title", ["BACK ORDERED ITEMS:", "Fehlt noch, kommt nach:", "PENDIENTE (sale el 14/06/2026):"]
)
def test_what_stands_below_is_asked_about_once_and_goes_by_the_answer(title: str) -> None:
    rows = [HEAD, SENT, [title], ["T2-2", "SPAR", "4"], ["T2-3", "WEB", "1"], ["Crate 2"], SENT]
    found = read_sheets(sheet_of(rows))
    (question,) = found.questions
    assert [row for _, row in question.rows] == [4, 5]
    assert [line.part for line in found.lines] == ["T2-1", "T2-1"]
    lines = read_sheets(sheet_of(rows), answers={question.id: "to follow"}).lines
    assert [(line.part, line.shipped, line.back_ordered) for line in lines] == [
        ("T2-1", 2, 0), ("T2-2", 0, 4), ("T2-3", 0, 1), ("T2-1", 2, 0),
    ]  # fmt: skip


def test_a_total_ends_what_is_to_follow() -> None:
    rows = [HEAD, SENT, ["", "To follow:"], ["T2-2", "SPAR", "4"], ["TOTAL", "", "6"], SENT]
    found = read_sheets(sheet_of(rows))
    assert [(line.row, line.part) for line in found.lines] == [(2, "T2-1"), (6, "T2-1")]


def test_a_remark_below_a_part_is_no_title_over_the_next() -> None:
    rows = [HEAD, SENT, ["", "2 on back order", ""], ["T2-2", "SPAR", "4"]]
    found = read_sheets(sheet_of(rows))
    assert [line.part for line in found.lines if line.shipped] == ["T2-2"]


def test_a_crate_that_follows_later_is_asked_about() -> None:
    rows = [HEAD, ["Crate 1"], SENT, ["Crate 2 - to follow"], ["T2-2", "SPAR", "4"]]
    found = read_sheets(sheet_of(rows))
    assert [(line.part, line.crate) for line in found.lines] == [("T2-1", "1")]
    (question,) = found.questions
    assert [row for _, row in question.rows] == [5]


@pytest.mark.parametrize(("yes", "no"), [("yes", "no"), ("✓", "✗"), ("☑", "✘"), ("ja", "nein")])
def test_a_row_that_a_column_of_ticks_says_no_of_is_asked_about(yes: str, no: str) -> None:
    rows = [
        [*HEAD, "Packed"],
        [*SENT, yes],
        ["T2-2", "SPAR", "4", no],
        ["T2-3", "WEB", "1", yes],
        ["T2-4", "SKIN", "1", yes],
        ["T2-5", "SKIN", "1", ""],
    ]
    found = read_sheets(sheet_of(rows))
    (question,) = found.questions
    assert question.id == f"Packed: {no}"
    assert [line.part for line in found.lines] == ["T2-1", "T2-3", "T2-4", "T2-5"]
    answered = read_sheets(sheet_of(rows), answers={question.id: "not coming"})
    assert [line.shipped for line in answered.lines if line.part == "T2-2"] == [0]


def test_boxes_to_be_ticked_by_hand_say_nothing() -> None:
    rows = [[*HEAD, "Check"], [*SENT, "☐"], ["T2-2", "SPAR", "4", "☑"], ["T2-3", "WEB", "1", "☐"]]
    found = read_sheets(sheet_of(rows))
    assert not found.questions
    assert len(found.lines) == 3
