"""What has exactly the scanned name is found, whatever a label of ours could look like."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from inventory.core.errors import InventoryError
from inventory.core.planning.plan import Plan, Step
from inventory.core.scanning.codes import own_id
from inventory.jobs.bench.scan_meaning import Meaning, MeaningKind, meaning
from inventory.jobs.planning.planning import take_in_plan
from tests.jobs.conftest import make_slip
from tests.jobs.shelf import stocked, taking

if TYPE_CHECKING:
    from inventory.jobs.acts import Bench

OWN = own_id("T2", 7)
"""A number of ours that no label of this record carries."""
FOREIGN = own_id("K9", 7)
MISREAD = OWN[:-1] + ("A" if OWN[-1] != "A" else "B")
NUMBERS = (
    "L4-3", "1W22", "S0001", "9S100", "1P33", "33", "ÜB-9", "GR#5 %S?", "A_1", "SUP’L-4",
    f"L{MISREAD}", f"L{FOREIGN}", f"L{OWN}", "PART 8", "W-1", "20-01", "ZUNDO",
)  # fmt: skip
BINS = ("W-1", "50%", "Ü-1", "33", "A")


@pytest.fixture
def odd(sqlite_bench: Bench) -> Bench:
    plan = Plan(source="p", sha256="d" * 64, steps=(Step(code="20-01", title="S"),), needs=())
    take_in_plan(sqlite_bench, plan, make_slip())
    stocked(sqlite_bench, make_slip, *((BINS[0], taking(number, 1)) for number in NUMBERS))
    stocked(sqlite_bench, make_slip, *((name, taking("X", 1)) for name in BINS[1:]))
    return sqlite_bench


def meant(bench: Bench, text: str) -> Meaning:
    with bench.store.reading() as db:
        return meaning(db, bench.kit, text)


@pytest.mark.parametrize("number", [n for n in NUMBERS if n not in ("1P33", *NUMBERS[-3:], "33")])
def test_part_number_is_found_whatever_code_it_looks_like(odd: Bench, number: str) -> None:
    found = meant(odd, number.lower())
    assert found.asked is not None
    assert found.asked.part == number.upper()


@pytest.mark.parametrize("name", ["50%", "ü-1"])
def test_bin_is_found_by_a_name_that_no_label_could_carry(odd: Bench, name: str) -> None:
    found = meant(odd, name)
    assert found.place is not None
    assert found.place.code == name.upper()


@pytest.mark.parametrize(
    ("text", "words", "remedy"),
    [
        ("W-1", "W-1 can mean 2 things here: part W-1 or bin W-1", "`PART W-1` or `BIN W-1`."),
        ("20-01", "20-01 can mean 2 things here: part 20-01 or step 20-01",
         "`PART 20-01` or `STEP 20-01`."),
        ("1P33", "1P33 can mean 2 things here: part 33 or part 1P33", "`PART 33` or `PART 1P33`."),
        ("ZUNDO", "ZUNDO can mean 2 things here: the control UNDO or part ZUNDO",
         "`PART ZUNDO`."),
    ],
)  # fmt: skip
def test_name_of_several_things_is_asked(odd: Bench, text: str, words: str, remedy: str) -> None:
    with pytest.raises(InventoryError) as refused:
        meant(odd, text)
    assert refused.value.what == words
    assert refused.value.remedy == f"Scan the printed label, or type {remedy}"


@pytest.mark.parametrize(
    ("text", "kind"),
    [("part w-1", "part"), ("bin w-1", "place"), ("step 20-01", "step"), ("PART 1P33", "part"),
     ("bin ü-1", "place"), ("PART 8", "part"), ("part zundo", "part")],
)  # fmt: skip
def test_kind_before_the_name_says_which_is_meant(odd: Bench, text: str, kind: str) -> None:
    assert meant(odd, text).kind == MeaningKind(kind)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("BIN NOPE", "no part BIN NOPE is known in this kit"),
        ("STEP W-1", "no part STEP W-1 is known in this kit"),
        ("PART 5", "no part PART 5 is known in this kit"),
        ("ÜB-8", "Ü is not on our labels: the scanner types for another keyboard layout"),
        ("L4\x1d3", "this is a retail or logistics code, not one of our labels"),
        ("]C10012", "this is a retail or logistics code, not one of our labels"),
        ("\udcfcB-9", "U+DCFC is not on our labels: the scanner types for another keyboard layout"),
        (f"9S{OWN}", f"label {OWN} isn't in the record of Tarn T2"),
        (f"9S{FOREIGN}", "this is a label of another kit (K9), not of Tarn T2 (T2)"),
        (f"9S{MISREAD}", f"the check character of {MISREAD} doesn't fit: the code was misread"),
    ],
)
def test_what_has_no_such_name_stays_refused(odd: Bench, text: str, words: str) -> None:
    with pytest.raises(InventoryError) as refused:
        meant(odd, text)
    assert refused.value.what == words


def test_retail_code_of_exactly_a_part_number_is_that_part(odd: Bench) -> None:
    assert meant(odd, "]C1L4-3").kind is MeaningKind.PART
