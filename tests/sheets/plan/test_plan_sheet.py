from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import openpyxl
import pytest

from inventory.core.items import Hand
from inventory.core.planning.plan import Need, NeedKind, PartSize, Step
from inventory.sheets.formats.book import Area, CellKind, Mark
from inventory.sheets.plan.plan_sheet import read_plan
from tests.sheets.plan_book import NEEDS, Text, needs_plan, plan_of, sheet_of, told

SAMPLE = Path(__file__).parents[3] / "sample_kits" / "tarn_rudder" / "plan.xlsx"


def test_the_sample_plan_reads_whole() -> None:
    plan = read_plan(SAMPLE)

    assert (len(plan.steps), len(plan.needs)) == (11, 55)
    assert plan.problems == ()
    assert plan.steps[4] == Step(
        code="12-02",
        title="Fit the leading edges and close the skins",
        section="12 Skins",
        sub_assembly="rudder",
        after=("11-02", "11-03", "12-01"),
        days=3,
        row=6,
    )
    assert plan.needs[3] == Need(
        step="11-01",
        part="T2-ST-0075",
        printed="T2-ST-0075",
        quantity=6,
        kind=NeedKind.CUT,
        length=292_100_000,
        sheet="RU-1",
        find_number="4",
        row=5,
    )
    assert (plan.needs[20].as_required, plan.needs[20].quantity) == (True, 0)


def test_a_file_from_the_disk_reads_like_its_rows(tmp_path: Path) -> None:
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.append(["Step", "Title", "Part number", "Part rev", "Qty"])
    sheet.append(["10-01", "Keel", "T2-FL-0412", "C", 2])
    book.save(tmp_path / "plan.xlsx")
    plan = read_plan(tmp_path / "plan.xlsx")

    assert [(need.step, need.part, need.revision, need.quantity) for need in plan.needs] == [
        ("10-01", "T2-FL-0412", "C", 2)
    ]


def test_one_table_may_name_step_and_part_together() -> None:
    plan = plan_of(
        sheet_of(
            "Plan",
            ("Floats of the Tarn T2",),
            ("SECTION", "Step no.", "Work", "After", "P/N", "Side", "QTY", "U/M"),
            ("10 Keel", "10-01", "Join the keel", None, "T2-FL-0401", "LH", 1, "EA"),
            (None, None, None, None, "T2-FL-0401", "RH", 1, "EA"),
            (None, "10-02", "Rivet the keel", "10-01", "MS20470AD4-4", None, 40, "EA"),
            ("SECTION", "Step no.", "Work", "After", "P/N", "Side", "QTY", "U/M"),
            ("11 Deck", "11-01", "Close the deck", "10-01, 10-02", None, None, None, None),
            ("Page 1 of 1",),
        )
    )

    assert told(plan) == []
    assert [(step.code, step.section, step.after) for step in plan.steps] == [
        ("10-01", "10 Keel", ()),
        ("10-02", "10 Keel", ("10-01",)),
        ("11-01", "11 Deck", ("10-01", "10-02")),
    ]
    assert [(need.step, need.hand, need.quantity) for need in plan.needs] == [
        ("10-01", Hand.LEFT, 1),
        ("10-01", Hand.RIGHT, 1),
        ("10-02", Hand.NONE, 40),
    ]


def test_headings_between_the_rows_may_name_section_and_step() -> None:
    plan = plan_of(
        sheet_of(
            "Plan",
            ("Item", "Part number", "Qty"),
            ("SECTION 10 - KEEL",),
            ("Step 10-01: Join the keel",),
            (1, "T2-FL-0401", 1),
            ("continued on the next sheet",),
            ("Step 10-02",),
            (1, "T2-FL-0402", 2),
        )
    )

    assert told(plan) == []
    assert [(step.code, step.title, step.section) for step in plan.steps] == [
        ("10-01", "Join the keel", "SECTION 10 - KEEL"),
        ("10-02", "", "SECTION 10 - KEEL"),
    ]
    assert [(need.step, need.find_number) for need in plan.needs] == [
        ("10-01", "1"),
        ("10-02", "1"),
    ]
    assert plan.notes == ("Plan: row 5 not read: continued on the next sheet",)


def test_a_title_across_the_sheet_is_a_section_and_merged_cells_count_for_all_their_rows() -> None:
    plan = plan_of(
        sheet_of(
            "Plan",
            ("Step", "Title", "Part number", "Qty"),
            ("KEEL",),
            ("10-01", "Join", "T2-FL-0401", 1),
            (None, None, "T2-FL-0402", 1),
            merged=(Area(2, 0, 2, 3), Area(3, 0, 4, 0), Area(3, 1, 4, 1)),
        )
    )

    assert told(plan) == []
    assert [(step.code, step.title, step.section) for step in plan.steps] == [
        ("10-01", "Join", "KEEL")
    ]
    assert [need.step for need in plan.needs] == ["10-01", "10-01"]


def test_a_row_of_needs_without_step_is_not_guessed() -> None:
    plan = needs_plan(("10-01", "A", None, 1), (None, "B", None, 1))

    assert told(plan) == ["Needs!A3: the row names no step"]


@pytest.mark.parametrize(
    "cells", [("10-01", None, None, 4), ("10-01", None, "LH"), ("10-01", None, None, None, "EA")]
)
def test_a_row_without_part_number_is_not_lost(cells: tuple[Text, ...]) -> None:
    assert told(needs_plan(cells)) == ["Needs!B2: the row names no part number"]


def test_a_quantity_without_part_number_is_not_lost_beside_a_step() -> None:
    plan = plan_of(sheet_of("Plan", ("Step", "Title", "P/N", "Qty"), ("A", "Keel", None, 4)))

    assert told(plan) == ["Plan!C2: the row names no part number"]


def test_codes_that_differ_only_in_case_dash_or_blank_are_one_step() -> None:
    plan = plan_of(
        sheet_of("Steps", ("Step", "After"), ("A-1", None), ("A-2", "a\u20111 ")),
        sheet_of("Needs", NEEDS, ("a-2", "P", None, 1)),
    )

    assert told(plan) == []
    assert plan.steps[1].after == ("A-1",)
    assert plan.needs[0].step == "A-2"


@pytest.mark.parametrize(
    ("step", "problem"),
    [
        (("10-02", "1.5", None), "Steps!B3: '1.5' isn't a whole number"),
        (("10-02", 2, "10-09"), "Steps!A3: step 10-02 comes after 10-09, which is no step"),
        (("10-01", 1, None), "Steps!A3: step 10-01 is there twice, first in Steps!A2"),
    ],
)
def test_a_doubtful_step_is_named_with_its_place(step: tuple[Text, ...], problem: str) -> None:
    plan = plan_of(sheet_of("Steps", ("Step", "Days", "After"), ("10-01", 1, None), step))

    assert any(line.startswith(problem) for line in told(plan))


def test_a_circle_of_steps_is_told_in_its_order() -> None:
    plan = plan_of(
        sheet_of("Steps", ("Step", "After"), ("A", "C"), ("B", "A"), ("C", "B"), ("D", None))
    )

    assert told(plan) == ["Steps!A2: steps wait for each other in a circle: A -> B -> C -> A"]


def test_the_length_column_is_the_parts_own_where_a_cut_length_stands_too() -> None:
    plan = plan_of(
        sheet_of("Steps", ("Step", "Title"), ("10-01", "Keel")),
        sheet_of(
            "Needs",
            ("Step", "Part no", "Qty", "Cut length", "Length (mm)", "Thickness in", "Holes"),
            ("10-01", "P", 1, None, "120", ".025", 4),
            ("10-01", "ANGLE", 2, '3"', None, None, None),
        ),
    )

    assert told(plan) == []
    assert plan.sizes == (PartSize(part="P", thickness=635_000, length=120_000_000, holes=4),)
    assert (plan.needs[1].kind, plan.needs[1].length) == (NeedKind.CUT, 76_200_000)


@pytest.mark.parametrize(
    ("kind", "problem"), [(CellKind.DATE, "a date"), (CellKind.ERROR, "#REF!")]
)
def test_a_code_that_the_spreadsheet_spoilt_is_named(kind: CellKind, problem: str) -> None:
    sheet = sheet_of("Steps", ("Step", "Title"), ("#REF!", "Keel"))
    spoilt = replace(sheet.rows[1], marks={0: Mark(kind=kind)})
    plan = plan_of(replace(sheet, rows=(sheet.rows[0], spoilt)))

    assert any(
        line.startswith("Steps!A2: the cell holds ") and problem in line for line in told(plan)
    )


def test_a_struck_row_is_asked_about() -> None:
    sheet = sheet_of("Steps", ("Step", "Title"), ("10-01", "Keel"))
    struck = replace(sheet.rows[1], marks={0: Mark(strike=True)})
    plan = plan_of(replace(sheet, rows=(sheet.rows[0], struck)))

    assert told(plan) == ["Steps!A2: 10-01 is struck out"]


def test_two_tables_that_contradict_each_other_are_told() -> None:
    plan = plan_of(
        sheet_of("Steps", ("Step", "Title", "After"), ("A", "Keel", None), ("B", "Deck", "A")),
        sheet_of("Needs", ("Step", "Title", "P/N", "Qty"), ("B", "Hull", "P", 1)),
    )

    assert told(plan) == ["Needs!A2: the title of step B is Hull here, and Deck in Steps!A3"]


def test_needs_of_a_step_that_the_table_of_steps_lacks_are_told() -> None:
    plan = plan_of(
        sheet_of("Steps", ("Step", "Title"), ("A", "Keel")),
        sheet_of("Needs", ("Step", "P/N", "Qty"), ("B", "P", 1)),
    )

    assert told(plan) == ["Needs!B2: P is for step B, which is no step of the plan"]


def test_a_table_of_needs_may_fill_in_what_the_steps_leave_empty() -> None:
    plan = plan_of(
        sheet_of("Steps", ("Step", "Title", "After"), ("A", None, None)),
        sheet_of("Needs", ("Step", "Title", "P/N", "Qty"), ("A", "Keel", "P", 1)),
    )

    assert plan.steps[0].title == "Keel"


def test_a_hidden_sheet_with_a_table_is_asked_about_and_a_cover_sheet_left_out() -> None:
    steps = sheet_of("Steps", ("Step", "Title"), ("A", "Keel"))
    plan = plan_of(sheet_of("Cover", ("Tarn T2 floats",)), replace(steps, hidden=True))

    assert told(plan) == ["Steps: the sheet is hidden, yet it holds a table of the plan"]
    assert plan.notes == ("Cover: no table of steps or needs",)


def test_a_file_without_a_plan_says_what_is_missing() -> None:
    assert told(plan_of(sheet_of("Sheet1", ("a", "b")))) == [
        "plan.xlsx: no table of steps or needs was found"
    ]
