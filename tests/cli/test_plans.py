from __future__ import annotations

from typing import TYPE_CHECKING

import openpyxl

from inventory.cli.exits import Exit

if TYPE_CHECKING:
    from pathlib import Path

    from tests.cli.conftest import Typist

Rows = list[tuple[str | int | None, ...]]

STEPS: Rows = [
    ("Step", "Title", "Section", "After", "Makes", "Days"),
    ("10-01", "Rivet the ribs", "10", None, "T2-FRAME", 2),
    ("10-02", "Bolt the spar", "10", "10-01", None, 1),
]
NEEDS: Rows = [
    ("Step", "Part number", "Hand", "Quantity", "Kind", "Cut length", "Drawing sheet", "Find", "X"),
    ("10-01", "T2-RIB", "LH", 2, "part", None, "S1", "3", "a"),
    ("10-01", "T2-ANGLE", None, 4, "cut", "75 mm", "S1", "7", "b"),
    ("10-02", "T2-FRAME", None, 2, "part", None, "S2", "1", "c"),
]


def sheet(folder: Path, name: str, steps: Rows, needs: Rows) -> str:
    book = openpyxl.Workbook()
    book.remove(book.worksheets[0])
    for title, rows in (("Steps", steps), ("Needs", needs)):
        page = book.create_sheet(title)
        for row in rows:
            page.append(row)
    book.save(folder / name)
    return str(folder / name)


def test_a_revised_plan_shows_every_difference_before_and_after_it_is_stored(
    small: Typist,
) -> None:
    small("plan", "read", sheet(small.folder, "a.xlsx", STEPS, NEEDS))
    revised = [
        *NEEDS[:1],
        ("10-01", "T2-RIB", "LH", 3, "part", None, "S1", "3", "a"),
        ("10-01", "T2-ANGLE", None, 4, "cut", "80 mm", "S1", "7", "b"),
        ("10-02", "T2-FRAME", None, 2, "part", None, "S2", "9", "c"),
        ("10-02", "T2-GREASE", None, "AR", None, None, "S2", "1", "c"),
    ]
    steps = [*STEPS[:2], ("10-02", "Bolt the spar", "11", "10-01", None, 3)]
    path = sheet(small.folder, "b.xlsx", steps, revised)
    dry = small("plan", "read", path, "--dry-run")
    assert "dry run: nothing was stored" in dry.err
    told = small("plan", "read", path)
    assert told.out == dry.out
    assert "6 differences from the plan before" in told.err
    assert max(map(len, told.out.splitlines())) <= 80
    assert "1 part number on no packing list: T2-GREASE" in told.out
    assert [" ".join(line.split()) for line in told.out.splitlines()[-6:]] == [
        "changed 10-02 section: 10 -> 11; days: 1 -> 3",
        "changed 10-01 T2-RIB LEFT quantity: 2 -> 3",
        "added 10-01 T2-ANGLE 4 x 80 mm",
        "changed 10-02 T2-FRAME find number: 1 -> 9",
        "added 10-02 T2-GREASE as required",
        "removed 10-01 T2-ANGLE 4 x 75 mm",
    ]
    assert small("plan", "read", path).err.startswith("done already")


def test_columns_without_meaning_are_named(small: Typist) -> None:
    told = small("plan", "read", sheet(small.folder, "a.xlsx", STEPS, NEEDS), "--dry-run")
    assert "  Needs: columns not read: X" in told.out.splitlines()


def test_json_of_a_plan_holds_its_differences(small: Typist) -> None:
    path = sheet(small.folder, "a.xlsx", STEPS, NEEDS)
    content = small("plan", "read", path, "--json").content
    assert (len(content["plan"]["steps"]), content["plan"]["needs"][0]["where"]) == (2, "Needs!B2")
    assert {each["altered"] for each in content["changes"]} == {"added", "removed", "changed"}


def test_a_plan_with_problems_is_refused_whole(small: Typist) -> None:
    steps = [*STEPS, ("10-03", "Close", "10", "10-04", None, 1)]
    steps.append(("10-04", "Open", "10", "10-03", None, 1))
    needs = [*NEEDS, ("10-02", "T2-RIB", "LH", -2, None, None, None, None, None)]
    path = sheet(small.folder, "bad.xlsx", steps, needs)
    told = small("plan", "read", path, "--dry-run")
    assert told.code == Exit.REFUSED
    assert "steps wait for each other in a circle: 10-03 -> 10-04 -> 10-03" in told.out
    assert "Needs!D5" in told.out
    before = (small.folder / "kits.kitwright").read_bytes()
    assert small("plan", "read", path).code == Exit.REFUSED
    assert (small.folder / "kits.kitwright").read_bytes() == before


def test_parts_on_no_packing_list_are_named_when_the_plan_is_read(small: Typist) -> None:
    path = small.folder / "p.csv"
    path.write_text("Step,Title,Part number,Qty\n10-01,Keel,T2-NEW,2\n10-01,,T2-RIB,1\n")
    told = small("plan", "read", str(path), "--dry-run")
    assert "1 part number on no packing list: T2-NEW; kitwright plan check" in told.out


def test_check_names_the_cell_of_a_part_that_nobody_delivers(small: Typist) -> None:
    needs = [*NEEDS, ("10-02", "T2-WINGLET", None, 1, None, None, None, None, None)]
    small("plan", "read", sheet(small.folder, "a.xlsx", STEPS, needs))
    told = small("plan", "check")
    assert told.code == Exit.FINDINGS
    assert told.out.startswith("Needs!B5: T2-WINGLET of step 10-02 stands on no packing list")
    assert small("plan", "check", "--json").content[0]["where"] == "Needs!B5"


def test_a_plan_that_holds_together_says_so(small: Typist) -> None:
    assert small("plan", "check").out == "the plan holds together\n"


def test_uses_are_told_up_to_the_last_step(small: Typist) -> None:
    # One frame takes 2 left ribs; step 10-02 takes 1 frame.
    told = small("plan", "uses", "t2-rib")
    assert told.out.splitlines() == [
        "T2-RIB  rib, nose",
        "all steps together: 4; low-level code 2",
        "",
        "step   hand   takes  plans  and so in",
        "-----  -----  -----  -----  ----------",
        "10-01  LEFT       2  S1 3",
        "10-01  LEFT       2  S1 3   step 10-02",
        "10-01  RIGHT      2  S1 3",
        "10-01  RIGHT      2  S1 3   step 10-02",
    ]
    assert small("plan", "uses", "T2-FRAME", "--json").content["level"] == 1


def test_a_part_that_the_plan_does_not_use_is_told(small: Typist) -> None:
    small("plan", "read", sheet(small.folder, "a.xlsx", STEPS, NEEDS))
    assert "no step of the plan uses it" in small("plan", "uses", "T2-SKIN").out


def test_a_page_of_the_plans_leads_back_to_its_parts(small: Typist) -> None:
    told = small("plan", "page", "s1", "4")
    assert told.out.splitlines()[2].split() == ["4", "T2-SPAR", "1", "10-02"]
    assert len(small("plan", "page", "S1", "--json").content) == 3
    assert "names no part on S9, find number 1" in small("plan", "page", "S9", "1").err
