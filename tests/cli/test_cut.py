from __future__ import annotations

import csv
import io
import json
import subprocess
import sys
from typing import TYPE_CHECKING

import pytest

from inventory.cli.exits import Exit

if TYPE_CHECKING:
    from pathlib import Path

    from tests.cli.conftest import Typist


def test_plan_shows_each_stick_with_tape_marks_on_80_columns(small: Typist) -> None:
    told = small("cut", "plan")
    assert told.code == Exit.DONE
    assert max(map(len, told.out.splitlines())) <= 80
    assert "buy 1 x 48 in; proved: no plan buys less" in told.out
    assert "2 × bar from RACK: T2-ANGLE angle 3/4 x 3/4, 48 in" in told.out
    # The fifteenth piece ends at 15 x 75 mm + 14 x 3.175 mm.
    assert "15   75 mm   1094.45 mm   1169.45 mm  S2 (10-04)" in told.out
    assert "BUY: T2-ANGLE" in told.out


def test_prices_decide_what_is_bought(small: Typist) -> None:
    told = small("cut", "plan", "10-04", "--buy", "1m@9.50 EUR", "--buy", "T2-ANGLE=4ft@12.50 EUR")
    assert "buy 1 x 48 in for 12.50 EUR; proved" in told.out
    small("to-order", "offer", "T2-ANGLE", "--from", "Heron", "--length", "4ft", "--price", "9 EUR")
    assert "buy 1 x 48 in for 9.00 EUR; proved" in small("cut", "plan", "10-04").out
    mixed = small("cut", "plan", "--buy", "1m@9.50 EUR", "--buy", "4ft@12.50 USD")
    assert (mixed.code, "prices in EUR and USD can't be compared" in mixed.err) == (
        Exit.REFUSED,
        True,
    )


def test_a_plan_for_one_step_names_the_others_that_want_the_stock(two_tips: Typist) -> None:
    alone = two_tips("cut", "plan", "14-02").out
    assert "ALSO WANTED by 14-01, which this plan leaves out" in " ".join(alone.split())
    assert "ALSO WANTED" not in two_tips("cut", "plan").out


@pytest.fixture
def two_tips(typed: Typist) -> Typist:
    (typed.folder / "plan.csv").write_text(
        "Step,Title,Part number,Qty,Kind,Cut length\n"
        "14-01,Left tip,T2-ANGLE,3,cut,10 in\n14-02,Right tip,T2-ANGLE,3,cut,10 in\n"
    )
    typed("kit", "new", "Tarn", "--code", "T2")
    typed("plan", "read", str(typed.folder / "plan.csv"))
    return typed


def test_what_no_stick_gives_is_named_and_is_a_finding(small: Typist) -> None:
    told = small("cut", "plan", "--buy", "T2-ANGLE=50mm", "--check")
    assert told.code == Exit.FINDINGS
    assert "NOT FROM THIS STOCK: 1 x 75 mm for step 10-04: the sticks don't suffice" in told.out
    assert small("cut", "plan", "--check").code == Exit.DONE


@pytest.mark.parametrize(
    ("name", "begins"), [("c.pdf", b"%PDF-"), ("c.svg", b"<svg"), ("c.xlsx", b"PK")]
)
def test_the_plan_is_drawn(small: Typist, name: str, begins: bytes) -> None:
    path = small.folder / name
    told = small("cut", "plan", "-o", str(path), "--unit", "mm")
    assert (told.code, told.out, told.err) == (Exit.DONE, "", f"written: {path}\n")
    assert path.read_bytes().startswith(begins)


def test_every_piece_stands_in_the_table(small: Typist) -> None:
    path = small.folder / "c.csv"
    small("cut", "plan", "-o", str(path), "--unit", "mm")
    rows = list(csv.DictReader(io.StringIO(path.read_text("utf-8-sig"))))
    assert sum(int(row["Times"]) for row in rows) == 31
    assert {(row["Length"], row["Step"]) for row in rows} == {("75 mm", "10-04")}


@pytest.mark.parametrize(
    ("words", "error"),
    [
        (("plan", "-o", "c.doc"), "isn't written as .doc"),
        (("plan", "--unit", "yd"), "no unit of a tape"),
        (("plan", "99-01"), "no step '99-01'"),
        (("plan", "--buy", "48"), "it has no unit"),
        (("record", "T2-ANGLE", "17x75mm"), "don't come out of a stick of 48 in"),
    ],
)
def test_what_cannot_be_planned_or_cut_is_refused(
    small: Typist, words: tuple[str, ...], error: str
) -> None:
    told = small("cut", *words)
    assert (told.code, error in told.err) == (Exit.REFUSED, True)


def test_a_cut_is_recorded_and_undone(small: Typist) -> None:
    told = small("cut", "record", "T2-ANGLE", "2x75mm", "10in", "--to", "step 10-04")
    assert (told.code, "step 10-04 asks for T2-ANGLE of another length" in told.err) == (3, True)
    told = small("cut", "record", "T2-ANGLE", "2x75mm", "--to", "step 10-04")
    assert told.out.splitlines() == [
        "1 x T2-ANGLE 48 in: bin RACK -> saw",
        "2 x T2-ANGLE 75 mm: saw -> step 10-04",
        "1 x T2-ANGLE 1062.85 mm: saw -> bin RACK",
        "the saw took 1/4 in of each stick",
    ]
    assert small("undo").code == Exit.DONE
    lying = small("where", "T2-ANGLE", "--json").content["lying"]
    assert [(one["item"]["length"], one["quantity"]) for one in lying] == [(1_219_200_000, 2)]


def test_a_measured_remnant_and_the_kerf_are_told_apart(small: Typist) -> None:
    told = small("cut", "record", "T2-ANGLE", "1x40in", "--remnant", "7in")
    assert "the saw took 1 in of each stick; by its kerf it is 1/8 in" in told.out
    told = small("cut", "record", "T2-ANGLE", "1x40in", "--remnant", "7-7/8in", "--length", "48in")
    assert told.out.endswith("the saw took 1/8 in of each stick\n")
    told = small("cut", "record", "T2-ANGLE", "5in", "--length", "7in", "--remnant-to", "C")
    assert told.out.endswith(
        "the saw took 1/8 in of each stick, a rest of 1-7/8 in is thrown away\n"
    )


def test_the_own_saw_is_shown_and_kept(small: Typist) -> None:
    assert small("cut", "saw").out == (
        "kerf 1/8 in, both ends of a stick 0 in, a rest from 2 in is kept\n"
    )
    small("cut", "saw", "--kerf", "1 mm", "--trim", "1/4in", "--least", "60mm")
    assert small("cut", "saw", "--json").content == {
        "saw": {"kerf": 1_000_000, "trim": 6_350_000},
        "least_remnant": 60_000_000,
    }


def test_no_open_step_wants_pieces_cut(small: Typist) -> None:
    assert small("cut", "plan", "10-01").out == "no open step wants pieces cut\n"


def test_json_is_one_document_and_nothing_else(small_kit_file: Path) -> None:
    words = [sys.executable, "-m", "inventory", "--store", str(small_kit_file), "cut", "plan"]
    told = subprocess.run([*words, "--json"], check=True, capture_output=True, text=True)
    (profile,) = json.loads(told.stdout)["content"]
    assert sum(len(each["stick"]["pieces"]) for each in profile["sticks"]) == 31
