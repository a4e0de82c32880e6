"""Backups nobody asked for: before an upgrade, and after so many acts."""

from __future__ import annotations

import logging
import sqlite3
import threading
from contextlib import closing
from typing import TYPE_CHECKING

import pytest

from inventory.core.errors import StoreError
from inventory.jobs.acts import acting
from inventory.jobs.record import backup, backup_by_itself
from inventory.jobs.record.backup import FOLDER, back_up, choose, known_backups
from inventory.jobs.record.backup_by_itself import after_act
from inventory.jobs.stores import open_store
from inventory.jobs.together import together
from inventory.store.kits import add_kit
from inventory.store.opening.database import create_store
from inventory.store.record.backup_files import backups_in
from inventory.store.record.copies import copy_store
from inventory.store.settings import STORE_ID, set_setting
from tests.conftest import NOW, slip
from tests.jobs.recorded import state

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from inventory.jobs.acts import Bench
    from inventory.store.opening.database import Connection, Store
    from tests.postgres import Server


@pytest.fixture(autouse=True)
def _in_turn(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(backup_by_itself._Turn, "not_before", 0.0)


def act(bench: Bench, times: int, start: int = 0) -> None:
    for number in range(times):
        with acting(bench, "hold", slip(f"k-{start + number}")):
            pass
    for thread in threading.enumerate():
        if thread.name == "backup":
            thread.join()


def test_after_so_many_acts_a_backup_is_made(sqlite_bench: Bench) -> None:
    choose(sqlite_bench.store, every=25)
    act(sqlite_bench, 24)
    assert known_backups(sqlite_bench.store) == []
    act(sqlite_bench, 1, start=24)
    (made,) = known_backups(sqlite_bench.store)
    assert made.note.rows["slip"] == 25


def test_a_backup_is_of_one_moment_while_acts_go_on(
    sqlite_bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    beside = threading.Thread(target=act, args=(sqlite_bench, 1, 500))

    def copied_while_somebody_acts(store: Store, db: Connection, target: Path) -> None:
        copy_store(store, db, target)
        beside.start()
        beside.join(0.3)

    monkeypatch.setattr(backup, "copy_store", copied_while_somebody_acts)
    act(sqlite_bench, 2)
    assert back_up(sqlite_bench.store, NOW).note.rows["slip"] == 2
    beside.join()


def test_acts_of_one_transaction_count_too(sqlite_bench: Bench) -> None:
    choose(sqlite_bench.store, every=25)
    with together(sqlite_bench) as inside:
        act(inside, 30)
        assert known_backups(sqlite_bench.store) == []
    act(sqlite_bench, 0)
    (made,) = known_backups(sqlite_bench.store)
    assert made.note.rows["slip"] == 30


def test_usually_a_file_is_backed_up_after_200_acts_and_a_server_never(bench: Bench) -> None:
    due = after_act(bench.store, 200)
    assert after_act(bench.store, 175) is None
    if due is not None:
        due.join()
    assert len(known_backups(bench.store)) == (bench.store.engine.name == "sqlite")


def test_never_is_never(sqlite_bench: Bench) -> None:
    choose(sqlite_bench.store, every=0)
    assert after_act(sqlite_bench.store, 200) is None


def test_one_backup_at_a_time_and_a_rest_between(sqlite_bench: Bench) -> None:
    with backup_by_itself._Turn.taken:
        assert after_act(sqlite_bench.store, 200) is None
    first = after_act(sqlite_bench.store, 200)
    assert first is not None
    first.join()
    assert after_act(sqlite_bench.store, 400) is None


def test_a_backup_that_fails_is_said_and_the_act_is_stored(
    sqlite_bench: Bench, tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    (tmp_path / "file").write_text("")
    choose(sqlite_bench.store, every=25, folder=tmp_path / "file" / "b")
    act(sqlite_bench, 25)
    assert "no backup was made: the folder of backups can't be used" in caplog.text
    with sqlite_bench.store.reading() as db:
        assert db.exec_driver_sql("SELECT count(*) FROM slip").scalar_one() == 25


def test_a_store_that_cannot_be_read_any_more_says_so(
    sqlite_bench: Bench, tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    sqlite_bench.store.close()
    (tmp_path / "store.kitwright").unlink()
    assert after_act(sqlite_bench.store, 200) is None
    assert "no backup was made: there is no store here" in caplog.text


@pytest.mark.parametrize("database", ["sqlite", "postgresql"])
def test_an_older_store_is_backed_up_before_it_is_brought_up(
    tmp_path: Path, caplog: pytest.LogCaptureFixture, postgresql: Server, database: str
) -> None:
    address = str(tmp_path / "kits") if database == "sqlite" else postgresql.empty()
    fill = begun_with(folder=tmp_path / "backups")
    create_store(address, fill, schema=4).close()
    with caplog.at_level(logging.WARNING), closing(open_store(address)) as store:
        now = state(store)
    assert "the store of schema 4 was backed up first" in caplog.text
    ((path, note),) = backups_in(tmp_path / "backups")
    assert (note.schema, note.store, note.rows) == (4, "OLD", {"setting": 2, "kit": 1})
    with closing(sqlite3.connect(path)) as db:
        assert db.execute("PRAGMA user_version").fetchone() == (4,)
    with closing(open_store(str(path))) as again:
        assert state(again) == now


def begun_with(folder: Path) -> Callable[[Connection], None]:
    def fill(db: Connection) -> None:
        set_setting(db, STORE_ID, "OLD")
        set_setting(db, FOLDER, str(folder))
        add_kit(db, "T2", "Tarn T2", NOW.isoformat())

    return fill


def test_a_store_that_cannot_be_backed_up_is_not_brought_up(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    address = str(tmp_path / "kits")
    create_store(address, begun_with(folder=tmp_path / "file" / "b"), schema=4).close()
    before = (tmp_path / "kits").read_bytes()
    with pytest.raises(StoreError, match="the folder of backups can't be used"):
        open_store(address)
    assert (tmp_path / "kits").read_bytes() == before


def test_rest_after_a_backup_is_bounded(
    sqlite_bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    hours = iter([0.0, 3600.0])
    monkeypatch.setattr("time.monotonic", lambda: next(hours))
    monkeypatch.setattr(backup_by_itself, "back_up", lambda *_: None)
    assert backup_by_itself._Turn.taken.acquire(blocking=False)
    backup_by_itself._beside_the_work(sqlite_bench.store)
    assert backup_by_itself._Turn.not_before == 3600.0 + 1800.0
