"""An act that lost against another one, or its connection, is done again and recorded once."""

from __future__ import annotations

import ast
from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from sqlalchemy import text

from inventory.core.errors import AlreadyDoneError, NotEnoughError, TryAgainError
from inventory.jobs import again
from inventory.jobs.acts import Bench, acting
from inventory.jobs.again import tried_again
from inventory.jobs.kits import begin_kit
from inventory.jobs.together import together
from inventory.store.ledger.slips import all_slips
from inventory.store.opening.database import open_store
from tests.conftest import NOW, slip

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tests.postgres import Server

ROOT = Path(__file__).parents[2]


@pytest.fixture(autouse=True)
def _no_pauses(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(again, "PAUSES", (0.0, 0.0, 0.0))


@pytest.fixture
def there(postgresql_address: str) -> Iterator[Bench]:
    with closing(open_store(postgresql_address)) as store:
        yield Bench(store, begin_kit(store, "Tarn T2", "T2", NOW))


def lose(bench: Bench, server: Server) -> None:
    """Cut the connection that an act is just using."""
    with bench.store.reading() as db:
        name = db.execute(text("SELECT current_database()")).scalar_one()
    with server.admin() as admin:
        admin.execute(
            "SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE datname = %s", [name]
        )


def test_a_connection_lost_in_the_middle_of_an_act_is_taken_up_again(
    there: Bench, postgresql: Server
) -> None:
    lost = [True, True, True]

    @tried_again
    def act(bench: Bench) -> None:
        with acting(bench, "hold", slip("k-1")):
            if lost:
                lost.pop()
                lose(bench, postgresql)

    act(there)
    with there.store.reading() as db:
        assert [each.slip.key for each in all_slips(db, 1)] == ["k-1"]


def test_a_connection_lost_for_good_is_said(there: Bench, postgresql: Server) -> None:
    tries = []

    @tried_again
    def act(bench: Bench) -> None:
        with acting(bench, "hold", slip("k-1")):
            tries.append(1)
            lose(bench, postgresql)

    with pytest.raises(TryAgainError, match="can't be reached"):
        act(there)
    assert len(tries) == 4
    with there.store.reading() as db:
        assert all_slips(db, 1) == []


def test_an_act_that_was_stored_before_the_connection_was_lost_is_not_stored_twice(
    there: Bench,
) -> None:
    answers = [TryAgainError("lost on the way back")]

    @tried_again
    def act(bench: Bench) -> None:
        with acting(bench, "hold", slip("k-1")):
            pass
        raise answers.pop()

    with pytest.raises(AlreadyDoneError):
        act(there)
    with there.store.reading() as db:
        assert len(all_slips(db, 1)) == 1


def test_two_acts_that_wait_for_each_other_both_end(there: Bench) -> None:
    """PostgreSQL ends one of two that wait for each other's lock; that one comes again."""
    other = begin_kit(there.store, "Tern", "TE", NOW)
    held: list[bool] = []

    @tried_again
    def act(bench: Bench, lock: int) -> None:
        with acting(bench, "hold", slip("k-1")) as acted:
            if not held:
                held.append(True)
                acted.db.execute(
                    text("DO $$ BEGIN RAISE EXCEPTION 'x' USING ERRCODE = '40P01'; END $$")
                )
            acted.db.execute(text("SELECT pg_advisory_xact_lock(:lock)"), {"lock": lock})

    act(there, 1)
    act(Bench(there.store, other), 2)
    with there.store.reading() as db:
        assert (len(all_slips(db, 1)), len(all_slips(db, 2))) == (1, 1)


def test_a_refusal_is_not_tried_again(there: Bench) -> None:
    tries = []

    @tried_again
    def act(_: Bench) -> None:
        tries.append(1)
        raise NotEnoughError("5 asked for, 3 in bin B-07")

    with pytest.raises(NotEnoughError):
        act(there)
    assert tries == [1]


def test_inside_another_transaction_the_whole_is_left_to_its_owner(there: Bench) -> None:
    tries = []

    @tried_again
    def act(_: Bench) -> None:
        tries.append(1)
        raise TryAgainError("lost")

    with pytest.raises(TryAgainError), together(there) as inside:
        act(inside)
    assert tries == [1]


def test_every_act_is_tried_again() -> None:
    lacking = [
        f"{path.name}: {function.name}"
        for path in sorted((ROOT / "inventory" / "jobs").rglob("*.py"))
        for function in ast.parse(path.read_text(encoding="utf-8")).body
        if isinstance(function, ast.FunctionDef)
        and "with acting(" in ast.unparse(function)
        and "tried_again" not in [ast.unparse(each) for each in function.decorator_list]
    ]
    assert lacking == []
