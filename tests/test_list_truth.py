"""The scorer of unseen lists: every kind of wrong reading is noticed."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pytest

from tests.benchmarks.list_truth import row_faults
from tests.benchmarks.unseen_lists.make import LISTS_EACH, OFFICES, make

if TYPE_CHECKING:
    from pathlib import Path


def truth(**more: object) -> dict[str, object]:
    part = {"numbers": ["WX-1"], "hand": "pair", "amounts": [["4", "2", "2"]], "unit": "EA"}
    return {"classes": ["part"], "parts": [part], "ask": "no", "why": "", **more}


def entry(**more: object) -> dict[str, object]:
    plain = {
        "class": "part",
        "part": "WX-1",
        "hand": "pair",
        "ordered": 4,
        "shipped": 2,
        "back_ordered": 2,
        "unit": "EA",
        "left": 2,
        "right": 2,
        "questions": [],
    }
    return plain | more


def half(side: str, **more: object) -> dict[str, object]:
    amounts = {"ordered": 2, "shipped": 1, "back_ordered": 1, "left": None, "right": None}
    return entry(hand=side, **{**amounts, side: 2, **more})


def kinds(found: list[dict[str, object]], **more: object) -> list[str]:
    return [kind for kind, _ in row_faults(truth(**more), found)]


@pytest.mark.parametrize(
    "found",
    [
        [entry()],
        [half("left"), half("right")],
        [entry(part="wx–1")],
        [entry(ordered="4", unit={"code": "EA", "word": "each"})],
        [entry(ordered=2, shipped=1, back_ordered=1, unit="PR")],
    ],
    ids=["one entry", "two entries", "another dash", "unit in two words", "pairs"],
)
def test_a_right_reading_has_no_fault(found: list[dict[str, object]]) -> None:
    assert row_faults(truth(), found) == []


@pytest.mark.parametrize(
    ("found", "kind"),
    [
        ([], "missing"),
        ([entry(**{"class": "unknown"}, questions=["?"])], "class"),
        ([entry(part="WX-2")], "silent"),
        ([entry(), entry(part="WX-2")], "silent"),
        ([entry(ordered=5)], "silent"),
        ([entry(back_ordered=0)], "silent"),
        ([entry(ordered=None)], "silent"),
        ([entry(unit="LBR")], "silent"),
        ([entry(left=3, right=1)], "silent"),
        ([entry(hand="none")], "silent"),
        ([half("left"), half("left")], "silent"),
        ([entry(questions=["why?"])], "needless"),
    ],
)
def test_a_wrong_reading_is_noticed(found: list[dict[str, object]], kind: str) -> None:
    assert kind in kinds(found)


def test_a_part_lost_without_a_question_is_silent() -> None:
    assert kinds([entry(**{"class": "note"})]) == ["class", "silent"]


def test_an_invented_part_is_silent() -> None:
    assert kinds([entry()], classes=["note"], parts=[]) == ["class", "silent"]


def test_as_required_is_never_a_number() -> None:
    part = {"numbers": ["WX-1"], "hand": "none", "amounts": [["AR", "AR", "0"]], "unit": "EA"}
    rightly = {"hand": "none", "ordered": None, "shipped": None, "back_ordered": None}
    assert kinds([entry(**rightly)], parts=[part]) == []
    assert kinds([entry(**{**rightly, "ordered": 0})], parts=[part]) == ["silent"]
    assert kinds([entry(**{**rightly, "shipped": 1})], parts=[part]) == ["silent"]


def test_a_row_nobody_can_read_has_to_be_asked_about() -> None:
    assert kinds([entry()], ask="must") == ["silent"]
    assert kinds([entry(questions=["left or right?"])], ask="must") == []


def test_every_row_of_the_unseen_lists_has_a_truth(tmp_path: Path) -> None:
    assert len(OFFICES) * LISTS_EACH >= 40
    for path in make(tmp_path, seed=7, each=1):
        rows = json.loads(path.with_suffix(".truth.json").read_text(encoding="utf-8"))
        places = [(row["sheet"], row["row"]) for row in rows]
        assert len(places) == len(set(places))
        assert {row["row"] for row in rows} == set(range(1, max(row["row"] for row in rows) + 1))


def test_the_same_seed_makes_the_same_lists(tmp_path: Path) -> None:
    first, again = (make(tmp_path / name, seed=7, each=1) for name in ("first", "again"))
    assert [one.read_bytes() for one in first] == [one.read_bytes() for one in again]
