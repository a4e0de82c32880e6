"""Sample lists whose trouble is what stands in the cells: hands, quantities, units, numbers.

Suppliers, orders and part numbers are invented; only AN, MS and NAS numbers are those of public
specifications.
"""

from __future__ import annotations

from datetime import datetime

from sample_kits.spreadsheets import Sheet
from tests.sheets.sample_sheets import listed


def f07_left_and_right_on_one_line() -> Sheet:
    return listed(
        (1, "T2-WR-0501", "CHEEK, L&R", 2, "EA"),
        (2, "T2-WR-0502-L/-R", "CHEEK PLATE", 4, "EA"),
        (3, "T2-WR-0503", "ARM, LH & RH", "1/1", "EA"),
        (4, "T2-WR-0504", "ARM, L/R", 3, "EA"),
        (5, "T2-WR-0505", "ARM, LH/RH", 1, "PR"),
        (6, "T2-WR-0506-1/-2", "STOP", 2, "EA"),
        (7, "AN960-10L", "WASHER, LIGHT", 8, "EA"),
    )


def f08_quantities_as_text() -> Sheet:
    return listed(
        (1, "T2-WR-0601", "PLATE", "2 ea"),
        (2, "T2-WR-0602", "PLATE", "4 (2L 2R)"),
        (3, "T2-WR-0603", "BLOCK, EITHER SIDE", "1 pr"),
        (4, "T2-WR-0604", "SHIM SET", "1 set"),
        (5, "MS20470AD4-4", "RIVET", "1 pkg (100)"),
        (6, "T2-WR-0605", "PRIMER", "A/R"),
        (7, "T2-WR-0606", "DRAWING", "REF"),
        (8, "T2-WR-0607", "PLATE", "-"),
        (9, "T2-WR-0608", "PLATE", "x4"),
        (10, "T2-WR-0609", "PLATE", "2+1 spare"),
        (11, "T2-WR-0610", "PLATE", None),
    )


def f09_units_that_can_mean_two_things() -> Sheet:
    return listed(
        (1, "T2-WR-0701", "PLATE", 2, "EA"),
        (2, "MS20470AD4-4", "RIVET", 3, "HD"),
        (3, "MS20470AD4-5", "RIVET", 2, "M"),
        (4, "MS20470AD4-6", "RIVET", 1, "M (1000)"),
        (5, "T2-WR-0702", "SEAL", 12, "FT"),
        (6, "T2-WR-0703", "GREASE", 8, "OZ"),
        (7, "T2-WR-0704", "HINGE PIN", 1, "SET"),
    )


def f10_hardware_by_weight() -> Sheet:
    return listed(
        (1, "MS20470AD4-4", "RIVET", "1/4 LB"),
        (2, "MS20470AD4-5", "RIVET", ".5", "LB"),
        (3, "MS20426AD3-3", "RIVET", 0.25, "LB"),
    )


def f11_stock_by_length() -> Sheet:
    sheet = Sheet("LIST")
    sheet.add("PART NUMBER", "DESCRIPTION", "QTY", "UNIT", "LENGTH")
    sheet.add("T2-ST-0075", "ANGLE 3/4 X 3/4 X .063", 2, "EA", '72"')
    sheet.add("T2-ST-0100", "TUBE 1 OD X .049 WALL", 1, "EA", "6'-0\"")
    sheet.add("T2-ST-0125", "ANGLE 1-1/4 X 1-1/4 X 1/8", 1, "EA", '72 1/2"')
    sheet.add("T2-ST-0150", "BAR", 1, "EA", "1830mm")
    sheet.add("T2-ST-0175", "SEAL", "12 ft in 2 pcs", None)
    sheet.add("T2-ST-0200", "ANGLE 3/4 X 3/4 X 1/8 X 6'", 3, "EA")
    sheet.add("T2-ST-0225", "TUBE", "2 @ 6 ft", None)
    sheet.add("T2-WR-0801", "PLATE", 1, "EA")
    sheet.add("T2-WR-0802", "PLATE", 1, "EA")
    return sheet


def f12_back_order_marks_in_all_spellings() -> Sheet:
    sheet = listed(
        (1, "T2-WR-0901", "PLATE", 4, "EA", "B/O"),
        (2, "T2-WR-0902", "PLATE", 4, "EA", "2 BO"),
        (3, "T2-WR-0903", "PLATE", 1, "EA", "back order"),
        (4, "T2-WR-0904", "PLATE", 1, "EA", "N/S"),
        (5, "T2-WR-0905", "PLATE", 1, "EA", "NIS"),
        (6, "T2-WR-0906", "PLATE", 1, "EA", "TBS"),
        (7, "T2-WR-0907", "PLATE", 1, "EA", "to follow"),
        (8, "T2-WR-0908", "PLATE", 1, "EA", "see note 3"),
        (9, "T2-WR-0909", "PLATE", 1, "EA", None),
        (10, "T2-WR-0910", "PLATE", 1, "EA", None),
        (11, "T2-WR-0911", "PLATE", 1, "EA", None),
        (12, "T2-WR-0912", "PLATE", 6, "EA", None),
    )
    sheet.add("NOTE 3: SHIPS LATER WITH THE SECOND CRATE")
    sheet.struck.add(10)
    sheet.shaded.add(11)
    sheet.notes[12, 3] = "on back-order"
    return sheet


def f13_substitutions() -> Sheet:
    return listed(
        (1, "AN365-1032A", "NUT", 4, "EA", "USE MS20365-1032A"),
        (2, "NAS1149F0363P", "WASHER", 4, "EA", "sub for AN960-10"),
        (3, "AN3-5A", "BOLT, OR EQUIV", 4, "EA", None),
        (4, "AN470AD4-4 / MS20470AD4-4", "RIVET", 50, "EA", None),
        (5, "T2-WR-1001-3", "PLATE", 1, "EA", "was T2-WR-1001-2"),
        (6, "T2-WR-1002-1", "PLATE", 1, "EA", "superseded by T2-WR-1002-2"),
    )


def f14_revisions() -> Sheet:
    sheet = Sheet("LIST")
    sheet.add("WHERRY LANE FORGE - PACKING LIST REV: D")
    sheet.add("PART NUMBER", "REV", "DESCRIPTION", "QTY")
    sheet.add("T2-WR-012C", None, "PLATE", 1)
    sheet.add("T2-WR-0113 REV B", None, "PLATE", 1)
    sheet.add("T2-WR-0114", "C", "PLATE", 1)
    return sheet


def f15_mangled_part_numbers() -> Sheet:
    sheet = Sheet("LIST")
    sheet.add("PART NUMBER", "DESCRIPTION", "QTY")
    sheet.add("00412", "PLATE", 1)
    sheet.add("00977", "PLATE", 1)
    sheet.add("00103", "PLATE", 1)
    sheet.add(412, "PLATE, ZEROS LOST", 1)
    sheet.add(413, "PLATE, ZEROS SHOWN", 1)
    sheet.formats[6, 1] = "00000"
    sheet.add(100000, "PLATE, WAS 1E5", 1)
    sheet.formats[7, 1] = "0.00E+00"
    sheet.add(datetime(2026, 4, 3), "PLATE, WAS 3-4", 1)  # noqa: DTZ001 - a spreadsheet's date
    sheet.formats[8, 1] = "d-mmm"
    sheet.add("10020 ", "PLATE, BLANK", 1)
    sheet.add("10\u201320\u00adA", "PLATE, DASH", 1)
    sheet.add("1OO21", "PLATE, LETTER O", 1)
    sheet.add("'00422", "PLATE, APOSTROPHE", 1)
    sheet.add("t2-wr-77", "PLATE, SMALL", 1)
    return sheet


def f16_same_part_on_several_lines() -> Sheet:
    sheet = Sheet("LIST")
    sheet.add("PART NUMBER", "DESCRIPTION", "QTY", "BAG")
    sheet.add("SUB-KIT 1 POST")
    sheet.add("AN3-5A", "BOLT", 4, "H1")
    sheet.add("AN3-5A", "BOLT", 2, "H2")
    sheet.add("SUB-KIT 2 BLADE")
    sheet.add("AN3-5A", "BOLT", 6, "H3")
    return sheet


def f17_quantity_per_assembly_and_extended() -> Sheet:
    return listed(
        ("T2-WR-1101", "PLATE", 2, 3, 6),
        ("T2-WR-1102", "PIN", 4, 3, 12),
        head=("PART NUMBER", "DESCRIPTION", "QTY PER ASSY", "NO OF ASSYS", "EXT QTY"),
    )


def f18_notes_and_continuations() -> Sheet:
    return listed(
        (1, "T2-WR-1201", "PLATE, HINGE, WITH", 1, "EA"),
        (None, None, "bushing fitted", None, None),
        ("NOTE: trim on assembly; the plates are left long on purpose.",),
        (2, "T2-WR-1202", "PLATE", 1, "EA"),
        (None, "All plates are filmed on both faces. Take the film off before priming.", None),
        (3, "T2-WR-1203", "PLATE", 1, "EA"),
    )


def f21_formulas_without_values() -> Sheet:
    return listed(
        (1, "T2-WR-1501", "PLATE", "=2*2", "EA"),
        (2, "T2-WR-1502", "PLATE", 3, "EA"),
    )


def f21_formulas_with_values_and_errors() -> Sheet:
    return listed(
        (1, "T2-WR-1501", "PLATE", "=2*2", "EA"),
        (2, "T2-WR-1502", "PLATE", "=1/0", "EA"),
        (3, "T2-WR-1503", "PLATE", "=0", "EA"),
        (4, "T2-WR-1504", "PLATE", "3", "EA"),
    )


def f23_ticks_in_the_received_column() -> Sheet:
    return listed(
        ("T2-WR-1701", "PLATE", 4, "✓", "KM"),
        ("T2-WR-1702", "PLATE", 2, "OK", "KM"),
        ("T2-WR-1703", "PLATE", 1, "☐", None),
        ("T2-WR-1704", "PLATE", 3, "x", "RT"),
        head=("PART NUMBER", "DESCRIPTION", "QTY", "QTY REC'D", "BY"),
    )
