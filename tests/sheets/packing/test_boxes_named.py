"""Which crate, bag and sub-kit a row lies in, where pages, lists and columns name them."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.sheets.written_lists import read, read_sheets, sheet_of

if TYPE_CHECKING:
    from inventory.core.lists.packing import PackingList

HEAD = ["PART NUMBER", "DESCRIPTION", "QTY"]


def crates(packing_list: PackingList) -> dict[str, str]:
    return {line.part: line.crate for line in packing_list.lines}


@pytest.mark.parametrize("page", [[], [[], ["TERN LOFT"]]], ids=["alone", "under a page head"])
@pytest.mark.parametrize("head", [[], [HEAD]], ids=["without headings", "with headings"])
def test_the_next_crates_title_is_no_repeated_page_head(
    page: list[list[str]], head: list[list[str]]
) -> None:
    above = [["TERN LOFT"], ["Crate 1 of 2"], HEAD, ["T2-1", "RIB", "2"]]
    packing_list = read_sheets(
        sheet_of([*above, *page, ["Crate 2 of 2"], *head, ["T2-2", "RIB", "1"]])
    )
    assert crates(packing_list) == {"T2-1": "1 of 2", "T2-2": "2 of 2"}
    assert [str(row.row_class) for row in packing_list.rows].count("heading") == 2


def test_a_page_head_with_keys_turns_to_its_own_crate() -> None:
    rows = [
        *(["TERN LOFT"], ["Order:", "77", "Crate:", "1"], HEAD, ["T2-1", "RIB", "2"]),
        *(["Order:", "77", "Crate:", "2"], HEAD, ["T2-2", "RIB", "1"]),
    ]
    assert crates(read_sheets(sheet_of(rows))) == {"T2-1": "1", "T2-2": "2"}


@pytest.mark.parametrize(
    "title", ["BAG LIST", "HARDWARE BAG LIST", "CRATE CONTENTS", "KIT PARTS LIST", "BOX INDEX"]
)
def test_the_title_of_a_list_names_no_box(title: str) -> None:
    (line,) = read_sheets(sheet_of([[title], HEAD, ["T2-1", "RIB", "2"]])).lines
    assert (line.crate, line.bag, line.sub_kit) == ("", "", "")


def test_a_crate_named_once_holds_for_the_rows_below_and_that_is_said() -> None:
    head = ["CRATE", *HEAD]
    rows = [["1", "T2-1", "A", "1"], ["", "T2-2", "B", "1"], ["2", "T2-3", "C", "1"]]
    packing_list = read(*rows, head=head)
    assert crates(packing_list) == {"T2-1": "1", "T2-2": "1", "T2-3": "2"}
    assert packing_list.remarks == (
        "sheet L: rows without a crate: 1; the one named above them is taken",
    )


@pytest.mark.parametrize("first", ["", "2"], ids=["the first is blank", "names are repeated"])
def test_a_blank_crate_stays_blank_where_each_row_names_its_own(first: str) -> None:
    head = ["CRATE", *HEAD]
    rows = [[first, "T2-1", "A", "1"], ["2", "T2-2", "B", "1"], ["", "T2-3", "C", "1"]]
    assert crates(read(*rows, head=head))["T2-3"] == ""


def test_a_part_that_is_named_sub_kit_and_has_parts_below_may_be_a_title_and_is_asked() -> None:
    rows = [["T2-W-L", "LEFT WING SUB-KIT", "1 KIT"], ["T2-1", "SPAR", "1"], ["T2-2", "RIB", "12"]]
    asked = read(*rows, head=HEAD)
    assert [question.id for question in asked.questions] == ["L row 2 sub-kit"]
    titled = read(*rows, head=HEAD, answers={"L row 2 sub-kit": "title"})
    assert [(line.part, line.sub_kit) for line in titled.lines] == [
        ("T2-1", "T2-W-L"),
        ("T2-2", "T2-W-L"),
    ]
    part = read(*rows, head=HEAD, answers={"L row 2 sub-kit": "part"})
    assert [line.part for line in part.lines] == ["T2-W-L", "T2-1", "T2-2"]
