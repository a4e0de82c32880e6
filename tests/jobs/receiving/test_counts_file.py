from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from inventory.core.errors import InventoryError, ProblemsError
from inventory.core.items import Hand, Item, Measure
from inventory.core.places import Place, PlaceKind
from inventory.jobs.bench.finding_items import Asked
from inventory.jobs.lists.unpacking import take_in
from inventory.jobs.receiving.counting import TypedCount, count_typed
from inventory.jobs.receiving.counts_file import count_from_file
from inventory.jobs.receiving.receiving import close_crate, found
from tests.jobs.conftest import line
from tests.jobs.received import a_list
from tests.jobs.shelf import there

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench

    Slips = Callable[..., Slip]

HALF_POUND = 226_796_185_000
RIVETS = line("MS20470AD3-3", 9, 2 * HALF_POUND, crate="2 OF 2", measure=Measure.MASS, unit="LBR")
HEAD = "crate,bag,part number,hand,pieces,condition\n"


def read(bench: Bench, slip: Slips, folder: Path, rows: str) -> tuple[int, int]:
    path = folder / "counts.csv"
    path.write_text(HEAD + rows, encoding="utf-8")
    told = count_from_file(bench, path, slip())
    return told.rows, told.pieces


def problems(bench: Bench, slip: Slips, folder: Path, rows: str) -> list[str]:
    with pytest.raises(ProblemsError) as refused:
        read(bench, slip, folder, rows)
    return [str(each) for each in refused.value.problems]


def test_hardware_by_mass_is_counted_in_its_unit(bench: Bench, slip: Slips, tmp_path: Path) -> None:
    take_in(bench, a_list(7, RIVETS), slip())
    assert read(bench, slip, tmp_path, "2,,MS20470AD3-3,,1/2 LB,good\n") == (1, 0)
    rivets = there(bench, Place(PlaceKind.CRATE, "2 OF 2"))
    assert rivets == {Item("MS20470AD3-3"): HALF_POUND}
    close_crate(bench, "2", slip())
    short = [one for one in found(bench, "2") if one.part == "MS20470AD3-3"]
    assert [one.pieces for one in short] == [HALF_POUND]


def test_bare_number_of_a_part_by_mass_is_asked_for_its_unit(
    bench: Bench, slip: Slips, tmp_path: Path
) -> None:
    take_in(bench, a_list(7, RIVETS), slip())
    (told,) = problems(bench, slip, tmp_path, "2,,MS20470AD3-3,,1,good\n")
    assert "as the list does: LBR" in told
    mixed = "2,,MS20470AD3-3,,1/4 LB,good\n2,,MS20470AD3-3,,1,damaged\n"
    (told,) = problems(bench, slip, tmp_path, mixed)
    assert "Write the unit in each row" in told
    typed = TypedCount(crate="2", asked=Asked(part="MS20470AD3-3"), pieces="1/2 LB")
    assert count_typed(bench, typed, slip()).pieces_good == HALF_POUND
    with pytest.raises(InventoryError, match="counted by mass"):
        count_typed(bench, typed.__class__(crate="2", asked=typed.asked, pieces="3"), slip())


def test_two_conditions_of_a_mass_are_one_count(bench: Bench, slip: Slips, tmp_path: Path) -> None:
    take_in(bench, a_list(7, RIVETS), slip())
    rows = "2,,MS20470AD3-3,,1/4 LB,good\n2,,MS20470AD3-3,,1/4 LB,damaged\n"
    assert read(bench, slip, tmp_path, rows) == (2, 0)
    assert sum(there(bench, Place(PlaceKind.HOLD, "HOLD")).values()) == HALF_POUND // 2


def test_part_listed_twice_in_a_crate_may_be_counted_in_two_rows(
    bench: Bench, slip: Slips, tmp_path: Path
) -> None:
    rings = (
        line("RING", 20, 2, crate="2 OF 2", sub_kit="42"),
        line("RING", 90, 2, crate="2 OF 2", sub_kit="46"),
    )
    take_in(bench, a_list(7, *rings), slip())
    assert read(bench, slip, tmp_path, "2,,RING,,2,good\n2,,RING,,1,good\n") == (2, 3)
    assert there(bench, Place(PlaceKind.CRATE, "2 OF 2")) == {Item("RING"): 3}


def test_part_listed_once_is_not_counted_in_two_rows(
    bench: Bench, slip: Slips, tmp_path: Path
) -> None:
    (told,) = problems(bench, slip, tmp_path, "1,,SPAR,,1,good\n1,,SPAR,,1,good\n")
    assert "SPAR is counted before" in told
    assert there(bench, Place(PlaceKind.CRATE, "1 OF 2")) == {}


def test_every_problem_is_told_at_once(bench: Bench, slip: Slips, tmp_path: Path) -> None:
    rows = (
        "9,,SPAR,,1,good\n1,,SPAR,,-1,good\n1,,SPAR,,2.5,good\n1,,RIB-1,,1,good\n"
        "1,,,LH,1,good\n1,,SPAR,,1,so so\n1,,SPAR,,1/2 LB,good\n"
    )
    told = problems(bench, slip, tmp_path, rows)
    assert len(told) == 7
    for words in (
        "no crate '9'", "it is negative", "pieces are whole", "several hands", "no part number",
        "no condition", "isn't made of digits alone",
    ):  # fmt: skip
        assert any(words in each for each in told), (words, told)
    with bench.store.reading() as db:
        from inventory.store.receiving.counts import all_counts  # noqa: PLC0415

        assert all_counts(db, bench.kit.id) == []


def test_hand_of_the_row_is_taken_and_of_the_list_where_there_is_one(
    bench: Bench, slip: Slips, tmp_path: Path
) -> None:
    assert read(bench, slip, tmp_path, "1,,RIB-1,LH,2,good\n1,,SPAR,,1,good\n") == (2, 3)
    assert Item("RIB-1", Hand.LEFT) in there(bench, Place(PlaceKind.CRATE, "1 OF 2"))
