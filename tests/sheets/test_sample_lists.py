"""The sample kits' lists against what was worked out for them by hand and by their own script."""

from __future__ import annotations

import csv
from collections import Counter
from dataclasses import replace
from pathlib import Path

import pytest

from inventory.core.items import Hand
from inventory.core.lists.list_revision import ChangedLine, list_changes
from inventory.core.lists.packing import CountRule, PackingLine, PackingList
from inventory.core.lists.packing_audit import plain_number
from inventory.core.measures.lengths import parse_length
from inventory.core.measures.units import EACH, in_unit, unit_by_code
from inventory.sheets.packing.packing_list import read_packing_list

KITS = Path(__file__).parents[2] / "sample_kits"
HANDS = {Hand.LEFT: "LH", Hand.RIGHT: "RH", Hand.EITHER: "EITHER", Hand.NONE: ""}
RULES = {CountRule.AS_REQUIRED: "AR", CountRule.REFERENCE: "REF"}
FORMATS = ("xlsx", "xls", "ods", "csv")


def expected(kit: str, name: str) -> list[dict[str, str]]:
    with (KITS / kit / "expected" / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def amount(line: PackingLine, quantity: int) -> str:
    number = plain_number(in_unit(quantity, unit_by_code(line.unit) or EACH))
    return RULES.get(line.count_rule, str(number))


def said(line: PackingLine) -> tuple[str, ...]:
    """Return a line as the kit's table has it, the sub-kit by the number it begins with."""
    waiting = str(plain_number(in_unit(line.back_ordered, unit_by_code(line.unit) or EACH)))
    return (
        *(str(line.row), line.part, HANDS[line.hand]),
        *(amount(line, line.ordered), amount(line, line.shipped), waiting),
        *(line.unit, str(line.length), line.crate, line.bag, line.sub_kit[:2], line.revision),
    )


def truth(row: dict[str, str]) -> tuple[str, ...]:
    length = str(parse_length(row["length"]) if row["length"] else 0)
    amounts = (row[name].replace("1/2", "0.5") for name in ("ordered", "shipped", "back-ordered"))
    unit = {"LB": "LBR", "ML": "MLT"}.get(row["unit"], row["unit"])
    where = (row["crate"], row["bag"], row["sub-kit"][:2], row["revision"])
    return (*(row[name] for name in ("row", "part number", "hand")), *amounts, unit, length, *where)


@pytest.mark.parametrize("form", FORMATS)
def test_rudder_list_reads_the_same_from_every_format(form: str) -> None:
    read = read_packing_list(KITS / "tarn_rudder" / f"packing_list.{form}")
    classes = {str(row.row): row.row_class.value for row in read.rows}
    assert classes == {row["row"]: row["class"] for row in expected("tarn_rudder", "rows.csv")}
    assert list(map(said, read.lines)) == list(map(truth, expected("tarn_rudder", "lines.csv")))
    assert (read.questions, read.problems, read.held) == ((), (), ())
    assert (read.supplier, read.order, read.revision) == ("CURLEW SLIP KIT WORKS", "CS-2051", "A")


@pytest.fixture(scope="module")
def floats() -> PackingList:
    return read_packing_list(KITS / "tarn_floats" / "packing_list.xlsx")


def test_every_row_of_the_float_list_is_of_its_class(floats: PackingList) -> None:
    wanted = {(r["sheet"], int(r["row"])): r["class"] for r in expected("tarn_floats", "rows.csv")}
    assert {(row.sheet, row.row): row.row_class.value for row in floats.rows} == wanted


def test_every_line_of_the_float_list_is_right_and_nothing_is_asked(floats: PackingList) -> None:
    wanted = expected("tarn_floats", "lines.csv")
    assert [(line.sheet, *said(line)) for line in floats.lines] == [
        (row["sheet"], *truth(row)) for row in wanted
    ]
    assert (floats.questions, floats.problems) == ((), ())


@pytest.mark.parametrize("form", ["xls", "ods", "csv"])
def test_float_list_has_the_same_lines_in_every_format(form: str, floats: PackingList) -> None:
    read = read_packing_list(KITS / "tarn_floats" / f"packing_list.{form}")
    lines = [replace(line, sheet="", row=0, sub_kit="") for line in read.lines]
    assert lines == [replace(line, sheet="", row=0, sub_kit="") for line in floats.lines]


def shown(change: ChangedLine, field: str) -> tuple[str, ...]:
    old, new = change.before, change.after
    values = {
        "ordered": (amount(old, old.ordered), amount(new, new.ordered)),
        "shipped": (amount(old, old.shipped), amount(new, new.shipped)),
        "line": (old.item_number, new.item_number),
    }
    before, after = values.get(field) or (getattr(old, field), getattr(new, field))
    return (new.sheet, new.bag, new.part, field, before, after)


@pytest.mark.parametrize(("before", "after"), [("", "_b"), ("_b", "_c")], ids=["b", "c"])
def test_revised_float_list_differs_as_its_maker_changed_it(before: str, after: str) -> None:
    folder = KITS / "tarn_floats"
    old, new = (
        read_packing_list(folder / f"packing_list{issue}.xlsx") for issue in (before, after)
    )
    changes = list_changes(old.lines, new.lines)
    wanted = expected("tarn_floats", f"changes{after}.csv")
    # A pair stands on one printed row and makes two lines: each side is told apart here.
    single = [row for row in wanted if row["side"] != "L&R"]
    kinds = Counter(row["change"] for row in single)
    assert len([line for line in changes.added if not line.paired]) == kinds["added"]
    assert len([line for line in changes.removed if not line.paired]) == kinds["removed"]
    found = [shown(c, f) for c in changes.changed if not c.after.paired for f in c.fields]
    found += [shown(c, "line") for c in changes.renumbered if not c.after.paired]
    assert Counter(found) == Counter(
        (r["sub-kit"], r["bag"], r["part number"], r["field"], r["was"], r["is"])
        for r in single
        if r["change"] in {"changed", "renumbered"}
    )
