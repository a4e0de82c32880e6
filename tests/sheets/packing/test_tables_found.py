"""Which column is what, where a table begins and what closes it, on lists laid out oddly."""

from __future__ import annotations

from inventory.sheets.formats.reading import book_from_bytes
from inventory.sheets.packing.packing_list import packing_list_of
from tests.sheets.written_lists import parts, read_sheets, sheet_of


def text_parts(text: str) -> list[str]:
    return parts(packing_list_of(book_from_bytes("list.txt", text.encode())))


def test_item_beside_line_numbers_is_the_part_number() -> None:
    rows = [
        ["Ln", "Item", "Description", "Qty"],
        ["10", "000451", "RIB NOSE", "4"],
        ["20", "000452", "RIB TIP", "2"],
        ["30", "1E5", "CLIP", "12"],
        ["40", "HD4", "RIVET", "500"],
        ["50", "3-4", "SHIM", "8"],
    ]
    lines = read_sheets(sheet_of(rows)).lines
    assert [line.part for line in lines] == ["000451", "000452", "1E5", "HD4", "3-4"]


def test_item_that_only_counts_the_lines_is_no_part_number() -> None:
    rows = [["Ln", "Item", "Description", "Qty"]]
    rows += [["A", str(n), f"T2-10{n} RIB", "4"] for n in range(1, 6)]
    assert all(line.part.startswith("T2-10") for line in read_sheets(sheet_of(rows)).lines)


def test_each_of_two_tables_lies_in_the_crate_named_above_it() -> None:
    rows = [
        ["Crate 1", "", "", "", "Crate 2"],
        ["Part No", "Qty", "Desc", "", "Part No", "Qty", "Desc"],
        ["T2-1", "2", "Rib", "", "T2-7", "1", "Skin"],
        ["T2-2", "2", "Rib", "", "", "", ""],
    ]
    lines = read_sheets(sheet_of(rows)).lines
    assert {line.part: line.crate for line in lines} == {"T2-1": "1", "T2-2": "1", "T2-7": "2"}


def test_what_lies_in_no_crate_is_not_put_in_the_one_above() -> None:
    rows = [
        ["Part", "Qty", "Description"],
        *(["Crate 1"], ["T2-1", "2", "Rib"]),
        *(["Loose (not in crate)"], ["T2-2", "1", "Tube"]),
    ]
    lines = read_sheets(sheet_of(rows)).lines
    assert [line.crate for line in lines] == ["1", "Loose (not in crate)"]


def test_a_heading_that_names_boxes_is_no_box() -> None:
    rows = [["no", "such", "words", "box"], ["T2-1", "rib", "2", "1"], ["T2-2", "rib", "2", "1"]]
    packing_list = read_sheets(sheet_of([*rows, ["T2-3", "rib", "2", "1"]]))
    assert {line.crate for line in packing_list.lines} == {""}


def test_other_columns_of_numbers_are_named_where_headings_say_nothing() -> None:
    rows = [["T2-1", "Clip", "4", "2"], ["T2-2", "Rib", "7", "5"], ["T2-3", "Rib", "7", "9"]]
    (question,) = read_sheets(sheet_of(rows)).questions
    assert "the numbers in D count for nothing" in question.what


def test_a_pasted_table_with_headings_is_read_by_its_columns() -> None:
    text = (
        "here is what went into the box\n\n"
        "Part no      Description            Qty   Crate\n"
        "T2-401       Bulkhead               1     3\n"
        "T2-402-L     Side skin left         1     3\n"
        "T2-403       Stringer, 3/4 angle    8     4\n"
    )
    assert text_parts(text) == [
        "T2-401 none 1/1/0 EA",
        "T2-402-L left 1/1/0 EA L1 R0",
        "T2-403 none 8/8/0 EA",
    ]


def test_three_columns_set_out_by_blanks_are_not_cut_at_commas() -> None:
    text = (
        "Qty  Part          Description\n"
        "2    T2-100-1      Gear leg\n"
        "1    T2-101-L      Wheel pant, left\n"
        "1    T2-101-R      Wheel pant, right\n"
        "     (torque tube kit)\n"
        "12   T2-103        Washer, thick\n"
        "16   pieces\n"
    )
    packing_list = packing_list_of(book_from_bytes("list.txt", text.encode()))
    assert [line.part for line in packing_list.lines] == [
        "T2-100-1",
        "T2-101-L",
        "T2-101-R",
        "T2-103",
    ]
    classes = [str(row.row_class) for row in packing_list.rows]
    assert classes == ["head", "part", "part", "part", "note", "part", "total"]
    assert {line.sub_kit for line in packing_list.lines} == {""}


def test_a_counted_line_may_end_in_its_part_number() -> None:
    text = "4 x T2-6A bolt\n8 x T2-960 washer\n4 x T2-365 nut\n2 x cotter pin T2-380-2\n"
    assert text_parts(text)[-1] == "T2-380-2 none 2/2/0 EA"
