from __future__ import annotations

import json
from dataclasses import replace
from fractions import Fraction

from inventory.core.items import Hand, Measure
from inventory.core.lists.packing import (
    CountRule,
    HeldLine,
    ListedHand,
    PackingLine,
    PackingList,
    Question,
    RowClass,
    SourceRow,
)
from inventory.core.lists.packing_audit import audit_rows, plain_number


def part_row(number: int, table: int = 0) -> SourceRow:
    return SourceRow("LIST", number, RowClass.PART, "a part", ("T2-1", "4"), table)


LINE = PackingLine(sheet="LIST", row=2, part="T2-1", printed="t2-1", ordered=4, shipped=4)


def listed(*lines: PackingLine, rows: tuple[SourceRow, ...] = (part_row(2),)) -> PackingList:
    return PackingList(source="a.xlsx", sha256="0", rows=rows, lines=lines)


def test_every_source_row_gives_an_entry() -> None:
    head = SourceRow("LIST", 1, RowClass.HEAD, "names the columns", ("PART", "QTY"))
    entries = audit_rows(listed(LINE, rows=(head, part_row(2))))
    assert [(entry["row"], entry["class"]) for entry in entries] == [(1, "head"), (2, "part")]
    assert entries[0]["questions"] == []
    assert entries[1]["ordered"] == 4
    assert entries[1]["left"] is None


def test_entry_says_all_that_was_read_of_its_row() -> None:
    whole = replace(
        LINE, description="RIB", ordered=4, shipped=3, back_ordered=1, unit="EA", unit_word="each",
        length=25_400_000, crate="1", bag="A", sub_kit="11", revision="B", remark="1 B/O",
        item_number="7", rounded=True,
    )  # fmt: skip
    assert audit_rows(listed(whole)) == [
        {
            "sheet": "LIST", "row": 2, "class": "part", "why": "a part", "cells": ["T2-1", "4"],
            "questions": [], "part": "T2-1", "printed": "t2-1", "description": "RIB",
            "unit": "EA", "unit_word": "each", "measure": "pieces", "count_rule": "counted",
            "length_nm": 25_400_000, "crate": "1", "bag": "A", "sub_kit": "11", "revision": "B",
            "remark": "1 B/O", "item_number": "7", "rounded": True, "hand": "none", "ordered": 4,
            "shipped": 3, "back_ordered": 1, "left": None, "right": None,
        }
    ]  # fmt: skip


def test_pair_of_one_number_is_one_entry_with_both_sides() -> None:
    left = replace(LINE, hand=Hand.LEFT, ordered=1, shipped=1, paired=True)
    right = replace(LINE, hand=Hand.RIGHT, ordered=1, shipped=0, back_ordered=1, paired=True)
    (entry,) = audit_rows(listed(left, right))
    amounts = [entry[name] for name in ("hand", "ordered", "shipped", "back_ordered")]
    assert amounts == ["pair", 2, 1, 1]
    assert (entry["left"], entry["right"]) == (1, 1)


def test_pair_of_two_numbers_is_two_entries() -> None:
    left = replace(LINE, part="T2-1-L", hand=Hand.LEFT, ordered=1, paired=True)
    right = replace(LINE, part="T2-1-R", hand=Hand.RIGHT, ordered=1, paired=True)
    entries = audit_rows(listed(left, right))
    assert [(e["part"], e["hand"], e["left"], e["right"]) for e in entries] == [
        ("T2-1-L", "left", 1, 0),
        ("T2-1-R", "right", 0, 1),
    ]


def test_tables_side_by_side_give_an_entry_each() -> None:
    rows = (part_row(2), part_row(2, table=1))
    entries = audit_rows(listed(LINE, replace(LINE, part="T2-2", table=1), rows=rows))
    assert [entry["part"] for entry in entries] == ["T2-1", "T2-2"]


def test_amount_is_in_the_printed_unit() -> None:
    # A quarter of 453.59237 g is 113.3980925 g.
    quarter = replace(LINE, ordered=113_398_092_500, measure=Measure.MASS, unit="LBR")
    pairs = replace(LINE, row=3, ordered=4, unit="PR")
    entries = audit_rows(listed(quarter, pairs, rows=(part_row(2), part_row(3))))
    assert [entry["ordered"] for entry in entries] == [0.25, 2]


def test_as_required_has_no_amount() -> None:
    (entry,) = audit_rows(listed(replace(LINE, ordered=0, count_rule=CountRule.AS_REQUIRED)))
    assert entry["ordered"] is None
    assert entry["count_rule"] == "as-required"


def test_as_required_of_a_hand_has_no_amount_on_either_side() -> None:
    left = replace(LINE, hand=Hand.LEFT, ordered=0, count_rule=CountRule.AS_REQUIRED)
    (entry,) = audit_rows(listed(left))
    assert (entry["hand"], entry["left"], entry["right"]) == ("left", None, None)


def held(hand: ListedHand, *unknown: str) -> PackingList:
    waiting = HeldLine(
        line=LINE, hand=hand, unknown=frozenset(unknown), questions=("LIST row 2 hand",)
    )
    rows = (part_row(2),)
    return PackingList(source="a.xlsx", sha256="0", rows=rows, held=(waiting,))


def test_held_row_says_what_is_known_and_why_it_is_held() -> None:
    (entry,) = audit_rows(held(ListedHand.PAIR, "hand", "shipped"))
    assert entry["questions"] == ["LIST row 2 hand"]
    assert (entry["hand"], entry["ordered"], entry["shipped"]) == ("unknown", 4, None)
    assert (entry["left"], entry["right"]) == (None, None)
    assert entry["unknown"] == ["hand", "shipped"]


def test_held_row_whose_amount_is_asked_gives_no_side_an_amount() -> None:
    (entry,) = audit_rows(held(ListedHand.LEFT, "ordered"))
    assert (entry["ordered"], entry["left"], entry["right"]) == (None, None, None)


def test_held_row_of_one_hand_keeps_its_side() -> None:
    (left,) = audit_rows(held(ListedHand.LEFT, "part"))
    (right,) = audit_rows(held(ListedHand.RIGHT, "part"))
    assert (left["left"], left["right"]) == (4, 0)
    assert (right["left"], right["right"]) == (0, 4)


def test_question_about_a_total_stands_at_its_row() -> None:
    row = SourceRow("LIST", 9, RowClass.TOTAL, "begins as a total", ("TOTAL", "9"))
    question = Question("LIST", 9, "off", (), id="LIST row 9 total", rows=(("LIST", 9),))
    packing_list = PackingList(source="a", sha256="0", rows=(row,), questions=(question,))
    assert audit_rows(packing_list)[0]["questions"] == ["LIST row 9 total"]


def test_number_is_whole_or_a_decimal_or_a_fraction() -> None:
    numbers = [plain_number(each) for each in (Fraction(4), Fraction(1, 4), Fraction(1, 3))]
    assert json.dumps(numbers) == '[4, 0.25, "1/3"]'
