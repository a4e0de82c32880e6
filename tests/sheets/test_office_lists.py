"""What offices head their columns, and what they write under them."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from inventory.core.lists.packing import RowClass
from inventory.sheets.formats.reading import book_from_bytes
from inventory.sheets.packing.packing_list import packing_list_of
from tests.sheets.written_lists import HEAD, parts, read

CASES = tomllib.loads(
    (Path(__file__).parents[1] / "cases" / "office_lists.toml").read_text("utf-8")
)


@pytest.mark.parametrize("case", CASES["case"], ids=lambda case: case["name"])
def test_each_part_row_is_read_or_asked_about(case: dict[str, Any]) -> None:
    packing_list = read(*case["rows"], head=case.get("head", HEAD), answers=case.get("answers", {}))
    assert parts(packing_list) == case["parts"]
    assert len(packing_list.rows) >= 1 + len(case["rows"])


@pytest.mark.parametrize(
    "words", ["NOT USED", "Reserved", "INTENTIONALLY BLANK", "VOID", "line deleted"]
)
def test_a_line_left_free_is_a_note(words: str) -> None:
    packing_list = read(["T2-1", "RIB", "", "2", "EA", ""], ["", words, "", "", "", ""])
    assert packing_list.rows[2].row_class is RowClass.NOTE
    assert packing_list.questions == ()


@pytest.mark.parametrize(
    ("words", "row_class"),
    [
        ("Übertrag", RowClass.TOTAL), ("Zwischensumme", RowClass.TOTAL),
        ("Sous-total", RowClass.TOTAL), ("Suma y sigue", RowClass.TOTAL),
        ("Totale", RowClass.TOTAL), ("Seite 1 von 3", RowClass.NOTE),
        ("Página 1 de 3", RowClass.NOTE), ("Page 1 sur 3", RowClass.NOTE),
        ("Baugruppe RUDER", RowClass.HEADING), ("Sous-ensemble GOUVERNE", RowClass.HEADING),
        ("Conjunto: TIMÓN", RowClass.HEADING), ("Kiste 2", RowClass.HEADING),
    ],
)  # fmt: skip
def test_words_of_other_languages_class_a_row(words: str, row_class: RowClass) -> None:
    line = ["T2-1", "RIB", "", "2", "EA", ""]
    amount = "2" if row_class is RowClass.TOTAL else ""
    packing_list = read(line, ["", words, "", amount, "", ""], ["T2-2", *line[1:]])
    assert packing_list.rows[2].row_class is row_class


def test_columns_of_part_numbers_that_nothing_reads_are_asked_about() -> None:
    rows = [[f"T2-{n}", "RIB", "2", f"FX-{n}", "7"] for n in range(4)]
    head = ["PART NUMBER", "DESCRIPTION", "QTY", "FIXING", "NEEDS"]
    (question,) = read(*rows, head=head).questions
    assert question.id == "column D unread"
    assert read(*rows, head=head, answers={"column D unread": "leave"}).questions == ()
    alone = [row[:4] for row in rows]
    assert read(*alone, head=head[:4]).questions == ()


@pytest.mark.parametrize(
    "line",
    ["4 x T2-101  Rib, nose (LH)", "4 ea T2-101 Rib, nose (LH)", "- T2-101 Rib, nose (LH) x4",
     "T2-101 - Rib, nose (LH) - 4 off", "> 4x T2-101 Rib, nose (LH)",
     "3) 4 off T2-101 rib, nose (LH)", "T2-101 Rib, nose: 4 LH"],
)  # fmt: skip
def test_lines_counted_by_hand_are_parts_once_that_is_confirmed(line: str) -> None:
    lines = ["Hello, this is in the box:", "", line, "2 x T2-102 Skin", "12 x AN3-5A Bolt", "Bye"]
    book = book_from_bytes("mail.txt", "\n".join(lines).encode())
    asked = packing_list_of(book)
    assert [question.id for question in asked.questions] == ["columns without headings"]
    told = packing_list_of(book, answers={"columns without headings": "yes"})
    assert told.questions == ()
    assert parts(told) == [
        "T2-101 left 4/4/0 EA L4 R0", "T2-102 none 2/2/0 EA", "AN3-5A none 12/12/0 EA",
    ]  # fmt: skip


def test_no_line_with_a_number_of_a_letter_is_lost() -> None:
    """What isn't understood of it is asked; greeting and signature are notes."""
    lines = ["Hello,", "this is in crate 3:", "1 bag of 50 AN365-1032A nuts", "12 pcs AN3-5A bolt",
             "T2-11 doubler, 1 LH 1 RH", "3/4 x 1/8 angle, 4 ft, 3 lengths",
             "T2-12 to follow next week (1)", "3 T2-13 plates", "Regards"]  # fmt: skip
    book = book_from_bytes("mail.txt", "\n".join(lines).encode())
    told = packing_list_of(book, answers={"columns without headings": "yes"})
    assert parts(told)[:3] == [
        "AN365-1032A none 50/50/0 EA", "AN3-5A none 12/12/0 H87", "T2-11 pair 2/2/0 EA L1 R1",
    ]  # fmt: skip
    assert [(each.line.row, each.questions) for each in told.held] == [
        (6, ("text row 6 part",)),
        (7, ("text row 7 quantity",)),
        (8, ("text row 8 quantity",)),
    ]
    classes = {row.row: str(row.row_class) for row in told.rows}
    assert (classes[1], classes[9]) == ("head", "note")


def test_numbers_that_can_be_a_lines_own_are_no_count() -> None:
    lines = ["1 T2-101 Rib", "2 T2-102 Skin", "3 AN3-5A Bolt", "4 AN4-7A Bolt"]
    read_ = packing_list_of(book_from_bytes("mail.txt", "\n".join(lines).encode()))
    assert read_.lines == ()


def test_a_file_without_a_part_is_a_problem() -> None:
    book = book_from_bytes("letter.txt", b"Dear builder,\n\nyour kit left today.\n\nThe office\n")
    packing_list = packing_list_of(book)
    assert packing_list.lines == ()
    assert "no row of it was understood as a part" in str(packing_list.problems[0])
