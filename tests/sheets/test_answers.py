"""Questions of packing lists, and what each answer makes of the row."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from inventory.core.lists.layouts import SupplierLayout
from tests.sheets.written_lists import parts, read, read_sheets, sheet_of

CASES = tomllib.loads((Path(__file__).parents[1] / "cases" / "answers.toml").read_text("utf-8"))
ASKED = CASES["case"]
ANSWERS = [
    (case, answer, wanted)
    for case in CASES["case"]
    for answer, wanted in case.items()
    if answer not in {"name", "row", "asks"}
]


@pytest.mark.parametrize("case", ASKED, ids=lambda case: case["name"])
def test_doubt_holds_the_row_and_is_asked_by_name(case: dict[str, Any]) -> None:
    packing_list = read(case["row"])
    assert packing_list.lines == ()
    assert case["asks"] in [question.id for question in packing_list.questions]
    assert case["asks"] in parts(packing_list)[0]


@pytest.mark.parametrize(
    ("case", "answer", "wanted"), ANSWERS, ids=[f"{c['name']}: {a}" for c, a, _ in ANSWERS]
)
def test_answer_settles_the_row(case: dict[str, Any], answer: str, wanted: str | list[str]) -> None:
    packing_list = read(case["row"], answers={case["asks"].upper(): f" {answer} "})
    assert parts(packing_list) == (wanted if isinstance(wanted, list) else [wanted])
    assert (packing_list.questions, packing_list.problems) == ((), ())


def test_answer_that_is_none_is_a_problem_and_the_question_stays() -> None:
    row = ["T2-1", "RIB", "BOTH", "2", "EA", ""]
    packing_list = read(row, answers={"hand BOTH": "sideways"})
    assert [question.id for question in packing_list.questions] == ["hand BOTH"]
    assert "'sideways' is no answer" in str(packing_list.problems[0])
    typed = read(["T2-1", "PLATE", "", "TBD", "EA", ""], answers={"L row 2 quantity": "many"})
    assert "a value of your own" in typed.problems[0].remedy


def test_answer_to_no_question_is_mentioned() -> None:
    packing_list = read(["T2-1", "RIB", "", "2", "EA", ""], answers={"unit M": "metre"})
    assert packing_list.remarks == ("no question of this list is named 'unit m'",)


def test_one_answer_settles_every_row_but_the_row_answered_otherwise() -> None:
    rows = [[f"T2-{n}", "RIB", "BOTH", "2", "EA", ""] for n in (1, 2)]
    answers = {"hand BOTH": "pair", "L row 3 hand BOTH": "either"}
    assert parts(read(*rows, answers=answers)) == [
        "T2-1 pair 2/2/0 EA L1 R1",
        "T2-2 either 2/2/0 EA",
    ]
    (question,) = read(*rows).questions
    assert question.rows == (("L", 2), ("L", 3))


def test_standing_answers_of_a_layout_go_behind_those_given() -> None:
    row = ["T2-1", "RIB", "BOTH", "2", "EA", ""]
    layout = SupplierLayout(name="Wherry", answers={"hand BOTH": "pair", "unit M": "metre"})
    assert parts(read(row, layout=layout)) == ["T2-1 pair 2/2/0 EA L1 R1"]
    assert read(row, layout=layout).layout == "Wherry"
    assert read(row, layout=layout).remarks == ()
    given = read(row, layout=layout, answers={"hand BOTH": "either"})
    assert parts(given) == ["T2-1 either 2/2/0 EA"]


def test_columns_of_a_layout_go_before_what_headings_usually_mean() -> None:
    head = ("PART NUMBER", "DESCRIPTION", "QTY", "RQD QTY", "STK")
    row = ("T2-1", "RIB", "9", "4", "3")
    columns = {"QTY": "other", "RQD QTY": "ordered", "STK": "shipped"}
    layout = SupplierLayout(
        name="Wherry", columns=columns, answers={"fewer shipped than ordered": "to follow"}
    )
    assert parts(read(row, head=head, layout=layout)) == ["T2-1 none 4/3/1 EA"]


def test_two_columns_of_one_meaning_are_asked() -> None:
    head = ("PART NUMBER", "QTY", "QUANTITY")
    rows = [("T2-101", "4", "5"), ("T2-102", "2", "2")]
    assert [q.id for q in read(*rows, head=head).questions] == ["column for quantity"]
    chosen = read(*rows, head=head, answers={"column for quantity": "C"})
    assert parts(chosen) == ["T2-101 none 5/5/0 EA", "T2-102 none 2/2/0 EA"]


def test_two_columns_that_say_the_same_are_not_asked() -> None:
    rows = [("T2-101", "4", "4"), ("T2-102", "2", "2")]
    assert read(*rows, head=("PART NUMBER", "QTY", "QUANTITY")).questions == ()


def test_columns_without_headings_are_guessed_and_asked() -> None:
    rows = [["T2-FL-0412", "RIB, NOSE, LH", "2", "EA"], ["T2-FL-0413", "SPACER", "4", "EA"]]
    rows.append(["AN3-5A", "BOLT", "12", "EA"])
    packing_list = read_sheets(sheet_of(rows))
    assert [question.id for question in packing_list.questions] == ["columns without headings"]
    settled = read_sheets(sheet_of(rows), answers={"columns without headings": "yes"})
    assert settled.questions == ()
    assert parts(settled)[0] == "T2-FL-0412 left 2/2/0 EA L2 R0"


LISTED = [[f"T2-10{n}", "RIB", "2"] for n in range(6)]
COLUMNS = ["PART NUMBER", "DESCRIPTION", "QTY"]


def test_hidden_sheet_is_asked_and_can_be_left_out() -> None:
    sheets = (
        sheet_of([COLUMNS, *LISTED]),
        sheet_of([COLUMNS, ["T2-9", "OLD", "1"]], "M", hidden=True),
    )
    asked = read_sheets(*sheets)
    assert [q.id for q in asked.questions] == ["hidden sheet M"]
    assert len(read_sheets(*sheets, answers={"hidden sheet M": "read"}).lines) == 7
    assert len(read_sheets(*sheets, answers={"hidden sheet M": "leave out"}).lines) == 6


def test_sheet_that_repeats_the_others_is_asked() -> None:
    whole = sheet_of([COLUMNS, *LISTED], "ALL")
    halves = (sheet_of([COLUMNS, *LISTED[:3]], "A"), sheet_of([COLUMNS, *LISTED[3:]], "B"))
    asked = read_sheets(*halves, whole)
    assert [q.id for q in asked.questions] == ["repeating sheet ALL"]
    left = read_sheets(*halves, whole, answers={"repeating sheet ALL": "leave out"})
    assert len(left.lines) == 6


def test_bags_of_which_there_are_several_are_asked() -> None:
    rows = [["BAG 7", "HARDWARE", "2"], ["   AN3-5A", "BOLT", "4"]]
    name = "contents of bag 7"
    assert [q.id for q in read(*rows, head=COLUMNS).questions] == [name]
    assert parts(read(*rows, head=COLUMNS, answers={name: "one"})) == ["AN3-5A none 8/8/0 EA"]
    assert parts(read(*rows, head=COLUMNS, answers={name: "all"})) == ["AN3-5A none 4/4/0 EA"]


def test_part_that_can_be_a_bags_title_is_asked() -> None:
    rows = [["T2-HB-03", "HARDWARE BAG", "1"], ["AN3-5A", "BOLT", "4"]]
    name = "L row 2 bag"
    assert name in [q.id for q in read(*rows, head=COLUMNS).questions]
    titled = read(*rows, head=COLUMNS, answers={name: "title"})
    assert [(line.part, line.bag) for line in titled.lines] == [("AN3-5A", "T2-HB-03")]
    assert len(read(*rows, head=COLUMNS, answers={name: "part"}).lines) == 2


def test_row_that_is_nothing_known_is_asked() -> None:
    rows = [["T2-101", "RIB", "2"], ["", "", "see the office"], ["", "5 or 6", "x"]]
    head = ("PART NUMBER", "DESCRIPTION", "QTY")
    packing_list = read(*rows, head=head)
    assert [row.row_class for row in packing_list.rows] != []


def test_fewer_shipped_than_ordered_is_asked_once_for_the_list() -> None:
    head = ("PART NUMBER", "ORD", "SHP")
    rows = [("T2-101", "4", "2"), ("T2-102", "1", "0"), ("T2-103", "3", "3")]
    name = "fewer shipped than ordered"
    asked = read(*rows, head=head)
    assert [(q.id, len(q.rows)) for q in asked.questions] == [(name, 2)]
    follow = read(*rows, head=head, answers={name: "to follow"})
    assert parts(follow) == [
        "T2-101 none 4/2/2 EA",
        "T2-102 none 1/0/1 EA",
        "T2-103 none 3/3/0 EA",
    ]
    nothing = read(*rows, head=head, answers={name: "nothing follows"})
    assert parts(nothing)[0] == "T2-101 none 4/2/0 EA"


def test_amounts_that_do_not_add_up_are_asked() -> None:
    head = ("PART NUMBER", "ORD", "SHP", "B/O")
    row = ("T2-101", "4", "2", "1")
    assert parts(read(row, head=head)) == ["T2-101 none -/-/- EA ? L row 2 amounts"]
    printed = read(row, head=head, answers={"L row 2 amounts": "as printed"})
    assert parts(printed) == ["T2-101 none 4/2/1 EA"]


def test_remark_against_the_columns_is_asked() -> None:
    head = ("PART NUMBER", "ORD", "SHP", "REMARKS")
    row = ("T2-101", "4", "4", "B/O")
    name = "L row 2 to follow"
    assert name in parts(read(row, head=head))[0]
    assert parts(read(row, head=head, answers={name: "columns"})) == ["T2-101 none 4/4/0 EA"]
    nothing = read(row, head=head, answers={name: "nothing shipped"})
    assert parts(nothing) == ["T2-101 none 4/0/4 EA"]


def test_blank_in_the_shipped_column_is_asked() -> None:
    head = ("PART NUMBER", "ORD", "SHP")
    rows = [("T2-101", "4", ""), ("T2-102", "1", "1")]
    name = "L row 2 shipped quantity"
    assert parts(read(*rows, head=head))[0] == f"T2-101 none 4/-/- EA ? {name}"
    assert parts(read(*rows, head=head, answers={name: "4"}))[0] == "T2-101 none 4/4/0 EA"


def test_quantity_and_total_that_differ_are_asked() -> None:
    head = ("PART NUMBER", "QTY", "TOTAL QTY")
    row = ("T2-101", "2", "6")
    assert "quantity or total" in parts(read(row, head=head))[0]
    total = read(row, head=head, answers={"quantity or total": "total"})
    quantity = read(row, head=head, answers={"quantity or total": "quantity"})
    assert (parts(total), parts(quantity)) == (
        ["T2-101 none 6/6/0 EA"],
        ["T2-101 none 2/2/0 EA"],
    )


def test_lengths_without_a_unit_are_asked_once() -> None:
    head = ("PART NUMBER", "DESCRIPTION", "QTY", "LENGTH")
    rows = [("T2-ST-1", "ANGLE", "2", "72"), ("T2-2", "RIB", "1", ""), ("T2-3", "RIB", "1", "")]
    name = "unit of the length column"
    assert name in parts(read(*rows, head=head))[0]
    settled = read(*rows, head=head, answers={name: "in"})
    assert settled.lines[0].length == 1_828_800_000


def test_length_nobody_can_read_is_asked() -> None:
    head = ("PART NUMBER", "DESCRIPTION", "QTY", "LENGTH")
    rows = [
        ("T2-ST-1", "ANGLE", "2", "as drawn"),
        ("T2-2", "RIB", "1", ""),
        ("T2-3", "RIB", "1", ""),
    ]
    name = "L row 2 length"
    assert name in parts(read(*rows, head=head))[0]
    assert read(*rows, head=head, answers={name: "6 ft"}).lines[0].length == 1_828_800_000
    assert read(*rows, head=head, answers={name: "0"}).lines[0].length == 0
    assert read(*rows, head=head, answers={name: "long"}).problems != ()
