"""Sample lists whose trouble is the layout of the sheet: heads, feet, merges, sub-kits, sheets.

Suppliers, orders and part numbers are invented; only AN, MS and NAS numbers are those of public
specifications.
"""

from __future__ import annotations

from sample_kits.spreadsheets import Sheet
from tests.sheets.sample_sheets import HEAD, listed


def f01_title_rows_and_two_row_header() -> Sheet:
    sheet = Sheet("PACKING LIST")
    sheet.add("WHERRY LANE FORGE")
    sheet.add("Old Malthouse Quay, Saltby")
    sheet.add("PACKING LIST", None, "Order: WL-300")
    sheet.add()
    sheet.add("PART", "DESCRIPTION", "QUANTITY", None, None, "UNIT", "REMARKS")
    sheet.add("NUMBER", None, "ORD", "SHP", "B/O")
    sheet.merges.append((5, 3, 5, 5))
    sheet.add("T2-WR-0101", "POST", 4, 3, 1, "EA", "1 TO FOLLOW")
    sheet.add("T2-WR-0102", "BLADE", 2, 2, 0, "EA")
    return sheet


def f02_header_repeated_on_every_page() -> Sheet:
    sheet = listed((1, "T2-WR-0101", "POST", 4, "EA"), (2, "T2-WR-0102", "BLADE", 2, "EA"))
    sheet.add("PAGE 1 OF 2")
    sheet.add(*HEAD)
    sheet.add(3, "T2-WR-0103", "TILLER", 1, "EA")
    sheet.add("PAGE 2 OF 2")
    return sheet


def f03_footers_and_totals_inside_the_list() -> Sheet:
    sheet = listed((1, "T2-WR-0101", "POST", 4, "EA"), (2, "T2-WR-0102", "BLADE", 2, "EA"))
    sheet.add(None, None, "Subtotal", 6)
    sheet.add(3, "T2-WR-0103", "TILLER", 1, "EA")
    sheet.add("Total lines 3")
    sheet.add(None, None, "TOTAL PIECES", 7)
    sheet.add("Page 2 of 5")
    return sheet


def f04_merged_cells() -> Sheet:
    sheet = Sheet("LIST")
    sheet.add("PART NUMBER", "DESCRIPTION", "QTY", "BAG")
    sheet.add("RUDDER POST")
    sheet.merges.append((2, 1, 2, 4))
    sheet.add("T2-WR-0201", "BUSHING", 2, "B7")
    sheet.add("AN3-5A", "BOLT", 4)
    sheet.add("AN960-10", "WASHER", 8)
    sheet.merges.append((3, 4, 5, 4))
    sheet.add("T2-WR-0202", "PIN", 1, "B8")
    return sheet


def f05_sub_kit_headings_that_are_only_bold() -> Sheet:
    sheet = Sheet("LIST")
    sheet.add("Part no", "Description", "Qty", bold=True)
    sheet.add("Tail post", bold=True)
    sheet.add("T2-WR-0301", "Post, upper", 1)
    sheet.add("T2-WR-0302", "Post, lower", 1)
    sheet.add("Water rudder", bold=True)
    sheet.add("T2-WR-0303", "Blade", 1)
    return sheet


def f06_bag_in_bag() -> Sheet:
    sheet = Sheet("LIST")
    sheet.add("PART NUMBER", "DESCRIPTION", "QTY")
    sheet.add("T2-WR-0401", "TILLER ARM", 1)
    sheet.add("BAG 3", "HARDWARE BAG", 1)
    sheet.add("   AN3-5A", "BOLT", 4)
    sheet.add("   BAG 3A", "SMALL BAG", 1)
    sheet.add("      AN960-10", "WASHER", 8)
    sheet.add("   AN3-6A", "BOLT", 2)
    sheet.add("T2-WR-0402", "TILLER CAP", 1)
    return sheet


def f19_several_sheets_hidden_rows_and_an_index() -> list[Sheet]:
    index = Sheet("INDEX")
    index.add("WHERRY LANE FORGE")
    index.add("Sheet CRATE 1: 2 lines")
    index.add("Sheet CRATE 2: 1 line")
    one, two = listed(name="CRATE 1"), listed(name="CRATE 2")
    one.add(1, "T2-WR-1301", "PLATE", 1, "EA")
    one.add(2, "T2-WR-1302", "PLATE", 1, "EA")
    one.hidden.add(3)
    two.add(1, "T2-WR-1303", "PLATE", 1, "EA")
    return [index, one, two]


def f20_two_tables_side_by_side() -> Sheet:
    sheet = Sheet("LIST")
    sheet.add("PART NO", "DESCRIPTION", "QTY", None, "PART NO", "DESCRIPTION", "QTY")
    sheet.add("T2-WR-1401", "PLATE", 1, None, "T2-WR-1404", "PIN", 4)
    sheet.add("T2-WR-1402", "BLOCK", 2, None, "T2-WR-1405", "CAP", 5)
    sheet.add("T2-WR-1403", "POST", 3)
    return sheet


def f22_plain_list() -> Sheet:
    """Return the list that is written in every format."""
    return listed(
        (1, "T2-WR-1601", "PLATE ½ IN, 90°", 2, "EA"),
        (2, "T2-WR-1602", "SEAL, LH", 1, "EA"),
        (3, "T2-WR-1603", "GREASE", "1,5", "LB"),
    )


def f24_list_that_repeats_earlier_shipments() -> Sheet:
    return listed(
        ("T2-WR-1801", "PLATE", 4, 4, 0, 0),
        ("T2-WR-1802", "PLATE", 4, 2, 2, 0),
        ("T2-WR-1803", "PLATE", 4, 0, 3, 1),
        head=("PART NUMBER", "DESCRIPTION", "ORDERED", "SHIPPED PREVIOUSLY", "SHIPPED NOW", "B/O"),
    )


def f25_blank_and_decorative_rows_and_a_wrong_total() -> Sheet:
    sheet = Sheet("LIST")
    sheet.add(None, "PART NUMBER", None, "DESCRIPTION", "QTY")
    sheet.add()
    sheet.add(None, "T2-WR-1901", None, "PLATE", 4)
    sheet.add(None, "----------", "-----", "----------", "-----")
    sheet.add()
    sheet.add(None, "T2-WR-1902", None, "PLATE", 4)
    sheet.add(None, "TOTAL", None, None, 9)
    return sheet
