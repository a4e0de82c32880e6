"""A put-away sheet: every row that can't be is named at once, and nothing of it is stored."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from inventory.core.errors import ProblemsError, TryAgainError
from inventory.core.items import Measure
from inventory.core.planning.plan import Need
from inventory.jobs.bench import put_away_files
from inventory.jobs.bench.put_away_files import pieces_put, put_from_file
from inventory.jobs.bench.putting_away import add_bins
from inventory.jobs.planning.planning import take_in_plan
from tests.jobs.conftest import PLAN, make_slip
from tests.jobs.shelf import bin_, there

if TYPE_CHECKING:
    from pathlib import Path

    from inventory.jobs.acts import Bench


def sheet(folder: Path, *rows: str) -> Path:
    path = folder / "put.csv"
    path.write_text("\n".join(("part number,hand,pieces,bin,crate", *rows)), encoding="utf-8")
    return path


def test_every_row_that_cant_be_is_named_and_none_is_stored(bench: Bench, tmp_path: Path) -> None:
    add_bins(bench, ["A"], "", make_slip())
    path = sheet(tmp_path, "X,,3,A,", "SPAR,,1,A,1 OF 2", "X,,1,NOPE,", "X,,1,A,9 OF 9")
    with pytest.raises(ProblemsError, match=r"put\.csv holds 3 problems") as refused:
        put_from_file(bench, path, "opening", make_slip())
    assert [(each.where, each.what) for each in refused.value.problems] == [
        ("text A3", "SPAR doesn't lie in crate 1 OF 2"),
        ("text A4", "there is no bin NOPE"),
        ("text A5", "no crate '9 OF 9' is on the lists"),
    ]
    assert there(bench, bin_("A")) == {}


def test_row_from_nowhere_asks_where_its_pieces_come_from(bench: Bench, tmp_path: Path) -> None:
    add_bins(bench, ["A"], "", make_slip())
    with pytest.raises(ProblemsError, match=r"put\.csv holds 1 problem;") as refused:
        put_from_file(bench, sheet(tmp_path, "X,,3,A,"), "", make_slip())
    assert "--from opening" in refused.value.problems[0].remedy


def test_opening_stock_comes_in_from_a_sheet(bench: Bench, tmp_path: Path) -> None:
    add_bins(bench, ["A"], "", make_slip())
    path = sheet(tmp_path, "X,,3,A,", "RIB-1,L,2,a,", "X,,2,A,")
    moves = put_from_file(bench, path, "opening", make_slip())
    assert [move.quantity for move in moves] == [3, 2, 2]
    assert sum(there(bench, bin_("A")).values()) == 7


def test_what_is_counted_by_mass_is_put_away_with_its_unit(bench: Bench, tmp_path: Path) -> None:
    add_bins(bench, ["A"], "", make_slip())
    grease = Need(step="10-03", part="GREASE", quantity=50_000_000_000, measure=Measure.MASS)
    take_in_plan(bench, replace(PLAN, sha256="g" * 64, needs=(*PLAN.needs, grease)), make_slip())
    moves = put_from_file(bench, sheet(tmp_path, "grease,,1/2 LB,A,", "X,,2,A,"), "opening",
                          make_slip())  # fmt: skip
    # Half of 453.59237 g (16 CFR 500.19), in nanograms: rounded once, half to even.
    assert [move.quantity for move in moves] == [226_796_185_000, 2]
    assert pieces_put(bench, moves) == 2
    with pytest.raises(ProblemsError) as refused:
        put_from_file(bench, sheet(tmp_path, "grease,,3,A,"), "opening", make_slip())
    assert "the part is counted by mass" in refused.value.problems[0].what


def test_lost_store_isnt_told_as_a_problem_of_a_row(
    bench: Bench, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def lost(*_: object) -> None:
        raise TryAgainError("the connection was lost")

    monkeypatch.setattr(put_away_files, "put_one", lost)
    with pytest.raises(TryAgainError):
        put_from_file(bench, sheet(tmp_path, "X,,3,A,"), "opening", make_slip())
