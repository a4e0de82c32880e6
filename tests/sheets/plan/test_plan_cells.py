from __future__ import annotations

from dataclasses import replace

import pytest

from inventory.core.items import Measure
from inventory.sheets.formats.book import CellKind, Mark
from tests.sheets.plan_book import NEEDS, Text, needs_plan, plan_of, sheet_of, told


@pytest.mark.parametrize(
    ("quantity", "unit", "amount", "measure"),
    [
        (2, "EA", 2, Measure.PIECES),
        ("2 ea", None, 2, Measure.PIECES),
        ("x4", None, 4, Measure.PIECES),
        ("2.0", None, 2, Measure.PIECES),
        ("1/2", "DZ", 6, Measure.PIECES),
        ("1 1/2", "FT", 457_200_000, Measure.LENGTH),
        ("12 FT", None, 3_657_600_000, Measure.LENGTH),
        ("30", "mL", 30_000_000_000, Measure.VOLUME),
    ],
)
def test_a_quantity_reads_in_its_unit(
    quantity: Text, unit: Text, amount: int, measure: Measure
) -> None:
    plan = needs_plan(("10-01", "P", None, quantity, unit))

    assert told(plan) == []
    assert [(need.quantity, need.measure) for need in plan.needs] == [(amount, measure)]


@pytest.mark.parametrize(
    ("cells", "problem"),
    [
        (("P", None, "2.5"), "Needs!D2: 2.5 each isn't whole"),
        (("P", None, "-2"), "Needs!D2: the quantity -2 is negative"),
        (("P", None, None, "EA"), "Needs!D2: there is no quantity"),
        (("P", None, "some"), "Needs!D2: 'some' is no quantity"),
        (("P", None, "1,000"), "Needs!D2: '1,000' is no quantity"),
        (("P", None, "3/0"), "Needs!D2: '3/0' is over zero"),
        (("P", None, 2, "M"), "Needs!D2: the unit 'M' can mean metre or thousand"),
        (("P", None, 2, "furlong"), "Needs!D2: the unit 'furlong' is unknown"),
        (
            ("P", "LH", 1, "PR"),
            "Needs!D2: a pair can be one left and one right, or two alike",
        ),
        (("P", "L/R", 2), "Needs!C2: 'L/R' names both hands, and not how many of each"),
        (("P", "upper", 2), "Needs!C2: 'upper' is no hand"),
        (("P", None, 2, None, "fabric"), "Needs!F2: 'fabric' is no kind of need"),
        (("P", None, 2, None, "part", None, "-1"), "Needs!H2: the quantity -1 is negative"),
        (
            ("P", None, 2, None, "part", None, "AR"),
            "Needs!H2: a spare allowance can't be as-required",
        ),
        (
            ("P", None, 2, None, "cut", "48"),
            "Needs!G2: '48' can't be read as a length: it has no unit",
        ),
    ],
)
def test_a_doubtful_cell_is_named_with_its_place(cells: tuple[Text, ...], problem: str) -> None:
    assert problem in told(needs_plan(("10-01", *cells)))


def test_a_spare_allowance_in_per_cent_is_rounded_up() -> None:
    plan = needs_plan(("10-01", "P", None, 30, "EA", "hardware", None, "5 %"))

    assert [need.spare for need in plan.needs] == [2]


def test_a_number_is_read_as_stored_not_as_its_format_rounds_it() -> None:
    sheet = sheet_of("Needs", NEEDS, ("10-01", "P", None, 3))
    rounded = replace(sheet.rows[1], marks={3: Mark(kind=CellKind.NUMBER, value="2.5")})
    plan = plan_of(
        sheet_of("Steps", ("Step", "Title"), ("10-01", "Keel")),
        replace(sheet, rows=(sheet.rows[0], rounded)),
    )

    assert told(plan) == ["Needs!D2: 2.5 each isn't whole"]
