"""Slips: the same act is recorded once, and an undone act no longer counts."""

from __future__ import annotations

from datetime import UTC, date, datetime
from typing import TYPE_CHECKING

import pytest

from inventory.core.errors import AlreadyDoneError, SlipConflictError
from inventory.core.record.slips import Slip
from inventory.jobs.acts import acting
from inventory.store.ledger.slips import all_slips, find_slip, undone_slips
from tests.conftest import slip

if TYPE_CHECKING:
    from inventory.jobs.acts import Bench


def record(bench: Bench, act: str, recorded: Slip, undoes: int | None = None) -> int:
    with acting(bench, act, recorded, undoes) as acted:
        return acted.recorded.id


def test_a_slip_comes_back_as_it_was_written(bench: Bench) -> None:
    written = Slip(
        key="k-1",
        recorded_at=datetime(2026, 11, 25, 10, 0, 0, 250, tzinfo=UTC),
        happened_on=date(2024, 2, 29),
        person="Ørsted",
        device="phone 2",
        note="„halb“ ½",
        asked="digest",
    )
    record(bench, "issue", written)
    with bench.store.reading() as db:
        found = find_slip(db, bench.kit.id, "k-1")
        assert found is not None
        assert (found.id, found.act, found.slip, found.undoes) == (1, "issue", written, None)
        assert find_slip(db, bench.kit.id, "k-2") is None
        assert find_slip(db, bench.kit.id + 1, "k-1") is None


def test_the_same_slip_is_recorded_once(bench: Bench) -> None:
    record(bench, "issue", slip("k-1", asked="digest"))
    with pytest.raises(AlreadyDoneError, match="recorded before"):
        record(bench, "issue", slip("k-1", asked="digest", person="somebody else"))
    with bench.store.reading() as db:
        assert [each.id for each in all_slips(db, bench.kit.id)] == [1]


@pytest.mark.parametrize(("act", "asked"), [("issue", "another"), ("scrap", "digest")])
def test_the_same_slip_with_another_content_is_a_conflict(
    bench: Bench, act: str, asked: str
) -> None:
    record(bench, "issue", slip("k-1", asked="digest"))
    with pytest.raises(SlipConflictError, match="another content"):
        record(bench, act, slip("k-1", asked=asked))
    with bench.store.reading() as db:
        assert len(all_slips(db, bench.kit.id)) == 1


def test_an_undone_undo_lets_the_act_count_again(bench: Bench) -> None:
    record(bench, "issue", slip("k-1"))
    record(bench, "undo", slip("k-2"), undoes=1)
    with bench.store.reading() as db:
        assert undone_slips(db, bench.kit.id) == {1}
    record(bench, "undo", slip("k-3"), undoes=2)
    with bench.store.reading() as db:
        assert undone_slips(db, bench.kit.id) == {2}


def test_an_act_that_fails_leaves_no_slip(bench: Bench) -> None:
    with pytest.raises(ZeroDivisionError), acting(bench, "issue", slip("k-1")) as acted:
        assert acted.recorded.id / 0
    with bench.store.reading() as db:
        assert all_slips(db, bench.kit.id) == []


def test_outside_one_transaction_an_act_that_fails_would_leave_its_slip(
    sqlite_bench: Bench,
) -> None:
    """The control: it is the transaction that takes the slip back."""

    def in_two_halves() -> None:
        with acting(sqlite_bench, "issue", slip("k-1")) as acted:
            acted.db.commit()
            raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        in_two_halves()
    with sqlite_bench.store.reading() as db:
        assert [each.act for each in all_slips(db, sqlite_bench.kit.id)] == ["issue"]
