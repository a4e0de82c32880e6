"""Words offices use: misspelt and foreign headings, numbers of lines, letters, titles."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from inventory.sheets.formats.reading import book_from_bytes, read_book
from inventory.sheets.packing.packing_list import packing_list_of
from tests.sheets.written_lists import parts, read_sheets, sheet_of

if TYPE_CHECKING:
    from pathlib import Path

HEAD = ["PART NUMBER", "DESCRIPTION", "QTY"]
BODY = [["T2-1", "RIB", "2"], ["T2-2", "SPAR", "1"], ["T2-3", "SKIN", "4"]]


@pytest.mark.parametrize("heading", ["quanity", "Q.tà", "Q.tà / Qty", "Ilość / Qty", "QUANTIY"])
def test_misspelt_and_foreign_headings_of_quantities_are_understood(heading: str) -> None:
    read = read_sheets(sheet_of([["PART NUMBER", "discription", heading], *BODY]))
    assert [line.ordered for line in read.lines] == [2, 1, 4]
    assert not read.questions


@pytest.mark.parametrize("by", [1, 10, 100])
def test_numbers_of_lines_are_no_part_numbers_however_far_apart(by: int) -> None:
    rows = [[f"{by * n:06}", f"FT{7290 + 37 * n}", "RIB", "2"] for n in range(1, 7)]
    read = read_sheets(sheet_of([["LINE_NO", "ITEM_NO", "DESCR", "QTY"], *rows]))
    assert [line.part for line in read.lines] == [row[1] for row in rows]


@pytest.mark.parametrize("greeting", ["Hello all,", "Dear customer", "Guten Tag,", "Bonjour,"])
def test_greeting_of_a_letter_is_no_supplier(greeting: str) -> None:
    read = read_sheets(sheet_of([[greeting], ["TERN LOFT"], HEAD, *BODY]))
    assert read.supplier == "TERN LOFT"


def test_key_of_a_title_in_a_cell_of_its_own_is_no_supplier() -> None:
    read = read_sheets(sheet_of([["Order", "EIDER-77"], HEAD, *BODY]))
    assert (read.supplier, read.order) == ("", "EIDER-77")


@pytest.mark.parametrize("words", ["LINES ON THIS LIST", "Razem / Total lines"])
def test_count_of_lines_beside_its_words_is_a_total(words: str) -> None:
    read = read_sheets(sheet_of([HEAD, *BODY, ["", words, "3"]]))
    assert str(read.rows[-1].row_class) == "total"
    assert not read.questions


def test_row_longer_than_its_head_is_asked_about(tmp_path: Path) -> None:
    path = tmp_path / "list.csv"
    path.write_text("PART,DESC,QTY\nT2-1,BOLT, 4,2\nT2-2,NUT,3\nT2-3,PIN,1\nT2-4,CAP,1\n")
    read = packing_list_of(read_book(path))
    assert [question.id for question in read.questions] == ["text row 2 extra cell"]
    assert [line.part for line in read.lines] == ["T2-2", "T2-3", "T2-4"]
    answered = packing_list_of(read_book(path), answers={"text row 2 extra cell": "leave"})
    assert [line.ordered for line in answered.lines] == [4, 3, 1, 1]


def test_column_beyond_the_head_in_most_rows_is_no_row_cut_in_a_wrong_place(
    tmp_path: Path,
) -> None:
    path = tmp_path / "list.csv"
    path.write_text("PART,DESC,QTY\nT2-1,BOLT,4,shelf 2\nT2-2,NUT,3,shelf 1\nT2-3,PIN,1\n")
    assert not packing_list_of(read_book(path)).questions


def test_letter_with_a_headed_table_keeps_its_columns_though_commas_stand_in_words(
    tmp_path: Path,
) -> None:
    rows = [("T2-1", "RIB, NOSE", "left", 1), ("T2-2", "ARM, LONG", "L or R", 2)] * 4
    body = [f"{a:<12}{b:<24}{c:<8}{d}" for a, b, c, d in rows]
    head = f"{'Part no.':<12}{'Description':<24}{'Side':<8}Qty"
    path = tmp_path / "letter.txt"
    path.write_text("\n".join(["Hello all,", "", "here is what went out:", "", head, *body]))
    read = packing_list_of(read_book(path))
    assert [said.split()[1] for said in parts(read)[:2]] == ["left", "either"]
    assert read.supplier == ""


def test_a_list_without_a_column_of_quantities_is_asked_about_once() -> None:
    rows = [
        ["PART NUMBER", "DESCRIPTION", "Flurbel", "UNIT"],
        ["T2-1", "RIB", "about 2", "ea"],
        ["T2-2", "SPAR", "four", "ea"],
        ["T2-3", "WEB", "x 5 or so", "ea"],
    ]
    found = read_sheets(sheet_of(rows))
    (question,) = found.questions
    assert question.id == "column of quantities"
    assert [each.answer for each in question.readings] == ["C", "none"]
    assert [row for _, row in question.rows] == [2, 3, 4]
    chosen = read_sheets(sheet_of(rows), answers={question.id: "C"})
    assert [(line.part, line.ordered) for line in chosen.lines] == [("T2-2", 4)]
    assert [each.id for each in chosen.questions] == ["L row 2 quantity", "L row 4 quantity"]
    asked = read_sheets(sheet_of(rows), answers={question.id: "none"})
    assert len(asked.questions) == 3


@pytest.mark.parametrize("title", ["LOOSE", "Loose parts", "not in bags", "UNBAGGED"])
def test_what_lies_in_no_bag_ends_the_bag_above_it(title: str) -> None:
    rows = [
        ["PART NUMBER", "DESCRIPTION", "QTY"],
        ["BAG 12"],
        ["AN3-5A", "BOLT", "4"],
        [title],
        ["T2-2", "SPAR", "1"],
    ]
    found = read_sheets(sheet_of(rows))
    assert not found.questions
    assert [(line.part, line.bag) for line in found.lines] == [("AN3-5A", "12"), ("T2-2", "")]


def test_dots_lead_to_a_remark_beside_the_description() -> None:
    text = """\
qty  part no.     what it is
  6  WX-1256-27   GUSSET, COWLING ....... 3 LH + 3 RH
  1  WX-0641-12   FAIRING, COWLING ...... RH
  2  WX-7743-18   PLATE, FRAME .......... 0 here, 2 to follow
  4  WX-0286-17   WEB, ELEVATOR
"""
    found = packing_list_of(book_from_bytes("pasted text", text.encode()))
    assert not found.questions
    assert [(str(line.hand), line.shipped, line.back_ordered) for line in found.lines] == [
        ("left", 3, 0), ("right", 3, 0), ("right", 1, 0), ("none", 0, 2), ("none", 4, 0),
    ]  # fmt: skip


def test_words_in_brackets_stay_with_the_description_before_them() -> None:
    text = """\
Cant.    Código       Descripción
8 uds.   9.49.222     costilla de borde, ala exterior (4 izq. + 4 dcha.)
1 ud.    29.55.282    cartela, ala exterior, izquierda
250 uds. MS27039-1-08 tornillo
"""
    found = packing_list_of(book_from_bytes("pasted text", text.encode()))
    assert not found.questions
    assert [(line.part, str(line.hand), line.ordered) for line in found.lines] == [
        ("9.49.222", "left", 4), ("9.49.222", "right", 4), ("29.55.282", "left", 1),
        ("MS27039-1-08", "none", 250),
    ]  # fmt: skip
