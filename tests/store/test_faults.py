"""Disk full, read-only, busy, damaged, disconnected: one clear sentence, nothing half."""

from __future__ import annotations

import resource
import shutil
import sqlite3
from contextlib import closing, contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from sqlalchemy import text
from sqlalchemy.exc import DBAPIError

from inventory.core.errors import NoStoreError, StoreError, TryAgainError
from inventory.core.items import Item
from inventory.core.places import Place, PlaceKind
from inventory.core.record.ledger import Movement
from inventory.jobs.acts import Bench, acting
from inventory.jobs.kits import begin_kit, list_kits
from inventory.store.ledger.history import movements
from inventory.store.opening import engine
from inventory.store.opening.database import begin_store, open_store
from inventory.store.opening.faults import refusal
from tests.conftest import NOW, slip
from tests.people import reachable_folder, without_rights

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from inventory.store.opening.database import Store
    from tests.postgres import Server

RIB = Item("T2-RU-0412")


@pytest.fixture
def impatient(monkeypatch: pytest.MonkeyPatch) -> None:
    """Wait a moment for a lock, not ten seconds."""
    monkeypatch.setitem(engine.PRAGMAS, "busy_timeout", 50)


@pytest.fixture
def open_to_all(migrated_file: Path) -> Iterator[Path]:
    with reachable_folder() as folder:
        yield Path(shutil.copy(migrated_file, folder / "store.kitwright"))


def receive(bench: Bench, key: str, pieces: int = 1) -> None:
    with acting(bench, "bin put", slip(key)) as act:
        move = Movement(RIB, pieces, Place(PlaceKind.SUPPLIER), Place(PlaceKind.BIN, "B-07"))
        act.move([move] * 40)


def test_a_read_only_store_answers_questions_and_refuses_acts(open_to_all: Path) -> None:
    open_to_all.chmod(0o444)
    with without_rights(), closing(open_store(str(open_to_all))) as store:
        assert list_kits(store) == []
        with pytest.raises(StoreError, match="can only be read here"):
            begin_kit(store, "Tarn T2", "T2", NOW)


def test_a_read_only_folder_refuses_acts(open_to_all: Path) -> None:
    open_to_all.chmod(0o666)
    open_to_all.parent.chmod(0o555)
    with without_rights(), closing(open_store(str(open_to_all))) as store:
        assert list_kits(store) == []
        with pytest.raises(StoreError, match="can only be read here") as refused:
            begin_kit(store, "Tarn T2", "T2", NOW)
    assert "folder" in refused.value.remedy


def test_a_store_nobody_may_read_says_so(open_to_all: Path) -> None:
    open_to_all.chmod(0o000)
    with without_rights(), pytest.raises(StoreError, match="can't be read: Permission denied"):
        open_store(str(open_to_all))


def test_a_store_is_not_begun_where_nobody_may_write(open_to_all: Path) -> None:
    open_to_all.parent.chmod(0o555)
    with without_rights(), pytest.raises(StoreError, match="can't be made: Permission denied"):
        begin_store(str(open_to_all.parent / "new.kitwright"))


@pytest.mark.usefixtures("impatient")
def test_a_store_that_another_program_writes_to_asks_for_patience(sqlite_bench: Bench) -> None:
    with closing(sqlite3.connect(sqlite_bench.store.address, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(StoreError, match="another window or program is writing"):
            receive(sqlite_bench, "k-1")
        other.execute("ROLLBACK")
    receive(sqlite_bench, "k-1")


@pytest.mark.usefixtures("impatient")
def test_a_store_that_another_program_locks_wholly_is_not_opened(sqlite_address: str) -> None:
    with closing(sqlite3.connect(sqlite_address, isolation_level=None)) as other:
        other.execute("BEGIN EXCLUSIVE")
        with pytest.raises(StoreError, match="another window or program is writing"):
            open_store(sqlite_address)


@contextmanager
def largest_file(size: int) -> Iterator[None]:
    """Let no file of this process grow beyond a size: how a full disk looks to it."""
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, hard))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))


def told(act: Callable[[Bench, str], None], bench: Bench, key: str) -> str:
    try:
        act(bench, key)
    except StoreError as refused:
        return refused.what
    return "recorded"


def filled_up(bench: Bench) -> int:
    """Receive again and again until the disk is full; return how many acts were recorded."""
    size = Path(bench.store.address).stat().st_size
    recorded = 0
    with largest_file(size + 8192):
        while (said := told(receive, bench, f"k-{recorded}")) == "recorded":
            recorded += 1
    assert said == "the disk could not be written or read; this act was not recorded"
    assert recorded > 0
    bench.store.close()
    return recorded


def test_a_full_disk_loses_nothing_that_was_recorded(sqlite_bench: Bench) -> None:
    recorded = filled_up(sqlite_bench)
    with closing(open_store(sqlite_bench.store.address)) as store:
        with store.reading() as db:
            assert db.exec_driver_sql("PRAGMA integrity_check").scalar_one() == "ok"
            assert len(movements(db, 1)) == 40 * recorded
        receive(Bench(store, sqlite_bench.kit), f"k-{recorded}")


def test_without_its_transaction_a_full_disk_would_leave_half_an_act(
    sqlite_address: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The control: each statement by itself, and a part of the last act stays."""
    monkeypatch.setattr(engine, "_begin", lambda _: None)
    with closing(open_store(sqlite_address)) as store:
        bench = Bench(store, begin_kit(store, "Tarn T2", "T2", NOW))
        recorded = filled_up(bench)
        with store.reading() as db:
            assert len(movements(db, 1)) > 40 * recorded


def test_a_store_is_not_half_begun_on_a_full_disk(tmp_path: Path) -> None:
    with largest_file(20_000), pytest.raises(StoreError, match="disk"):
        begin_store(str(tmp_path / "kits.kitwright"))
    assert list(tmp_path.iterdir()) == []


def test_a_truncated_store_is_called_damaged(sqlite_address: str) -> None:
    path = Path(sqlite_address)
    path.write_bytes(path.read_bytes()[:5000])
    with pytest.raises(StoreError, match="the store is damaged") as refused:
        open_store(sqlite_address)
    assert "restore" in refused.value.remedy


def lose_connection(bench: Bench, server: Server) -> None:
    with acting(bench, "bin put", slip("k-1")) as act:
        own = act.db.execute(text("SELECT pg_backend_pid()")).scalar_one()
        with server.admin() as admin:
            admin.execute("SELECT pg_terminate_backend(%s)", [own])
        act.move([Movement(RIB, 1, Place(PlaceKind.SUPPLIER), Place(PlaceKind.BIN, "B-07"))])


def test_a_connection_lost_in_the_middle_of_an_act_records_nothing(
    postgresql: Server, postgresql_address: str
) -> None:
    with closing(open_store(postgresql_address)) as store:
        bench = Bench(store, begin_kit(store, "Tarn T2", "T2", NOW))
        with pytest.raises(TryAgainError, match="may not have been recorded"):
            lose_connection(bench, postgresql)
        receive(bench, "k-1")  # the same slip: the store is reached again, and it wasn't recorded
        with store.reading() as db:
            assert len(movements(db, 1)) == 40


def run(store: Store, statement: str) -> None:
    with store.writing() as db:
        db.execute(text(statement))


@pytest.mark.parametrize("code", ["40001", "40P01", "55P03"])
def test_an_act_that_loses_against_another_can_be_tried_again(
    postgresql_address: str, code: str
) -> None:
    lost = f"DO $$ BEGIN RAISE EXCEPTION 'lost' USING ERRCODE = '{code}'; END $$"
    store = open_store(postgresql_address)
    with closing(store), pytest.raises(TryAgainError, match="another act came in between"):
        run(store, lost)


def test_a_mistake_of_the_program_stays_a_mistake(store: Store) -> None:
    with pytest.raises(DBAPIError, match="nowhere") as mistake:
        run(store, "SELECT nothing FROM nowhere")
    assert refusal(mistake.value, "kits") is None


def test_a_store_that_vanished_is_no_store(sqlite_address: str) -> None:
    with closing(open_store(sqlite_address)) as store:
        store.close()
        Path(sqlite_address).unlink()
        with pytest.raises(StoreError, match="no store here"):
            list_kits(store)
    with pytest.raises(NoStoreError):
        open_store(sqlite_address)
