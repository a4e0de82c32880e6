"""Restore: a backup takes the store's place, and the store that was there stays beside it."""

from __future__ import annotations

import shutil
import sqlite3
from contextlib import closing
from dataclasses import replace
from datetime import timedelta
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from inventory.core.errors import InventoryError, StoreError
from inventory.jobs.acts import Bench, acting
from inventory.jobs.kits import choose_kit
from inventory.jobs.record.backup import Backup, back_up
from inventory.jobs.record.restoring import restore
from inventory.jobs.record.verifying import verify_file
from inventory.store.opening.database import look_at, open_store
from inventory.store.receiving.photo_records import photo_folder
from inventory.store.record import putting_back
from inventory.store.record.backup_files import backups_in, write_note
from inventory.store.record.copies import file_sha256
from tests.conftest import NOW, slip
from tests.jobs.recorded import harm, opened, state

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tests.postgres import Server

LATER = NOW + timedelta(hours=1)


@pytest.fixture
def bench(kept: str) -> Iterator[Bench]:
    with opened(kept) as store:
        yield Bench(store, choose_kit(store, "T2"))


@pytest.fixture(scope="module")
def backup_folder(recorded_folder: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    with opened(str(recorded_folder / "kits.kitwright")) as store:
        return back_up(store, NOW, tmp_path_factory.mktemp("backup") / "b").path.parent


@pytest.fixture
def made(backup_folder: Path, tmp_path: Path) -> Backup:
    """Return a backup of the bench's store as it is in the beginning."""
    shutil.copytree(backup_folder, tmp_path / "b")
    ((path, note),) = backups_in(tmp_path / "b")
    return Backup(path, note)


def act_again(bench: Bench) -> str:
    with acting(bench, "hold", slip("later", note="bent", person="Bea")):
        pass
    return state(bench.store)


def test_the_store_is_as_it_was_and_the_later_one_lies_beside_it(
    bench: Bench, made: Backup
) -> None:
    later = act_again(bench)
    done = restore(made.path, bench.store.address, LATER)
    assert state(bench.store) == made.note.state
    assert done.aside is not None
    assert done.aside.name == "kits-aside-20261125T110000Z.kitwright"
    assert [(kit, each.act, each.slip.person) for kit, each in done.later] == [
        ("T2", "hold", "Bea")
    ]
    with closing(look_at(str(done.aside))) as aside:
        assert state(aside) == later
    assert verify_file(bench.store.address).problems == ()


def test_a_window_that_has_the_store_open_sees_the_restored_one(bench: Bench, made: Backup) -> None:
    act_again(bench)
    restore(made.path, bench.store.address, LATER)
    act_again(bench)  # the same slip: the restored store doesn't know it
    assert verify_file(bench.store.address).problems == ()


def test_a_restored_store_is_for_its_owner_alone(
    bench: Bench, made: Backup, tmp_path: Path
) -> None:
    done = restore(made.path, bench.store.address, LATER)
    assert done.aside is not None
    new = tmp_path / "deep" / "new.kitwright"
    restore(made.path, str(new), LATER)
    for path in (Path(bench.store.address), done.aside, new):
        assert path.stat().st_mode & 0o777 == 0o600


def test_a_lost_store_comes_back_with_its_photographs(
    bench: Bench, made: Backup, tmp_path: Path
) -> None:
    new = tmp_path / "other computer" / "kits.kitwright"
    done = restore(made.path, str(new), LATER)
    assert (done.aside, done.later, done.photos_missing) == (None, (), ())
    assert [path.name for path in photo_folder(str(new)).iterdir()] == list(made.note.photos)
    assert verify_file(str(new)).problems == ()
    assert sorted(path.name for path in new.parent.iterdir()) == [
        "kits.kitwright",
        "kits.kitwright.photos",
    ]
    assert bench.store.address != str(new)


@pytest.mark.parametrize("harm", ["cut", "blank", "text"])
def test_a_damaged_store_is_put_aside_as_it_is(bench: Bench, made: Backup, harm: str) -> None:
    path = Path(bench.store.address)
    bench.store.close()
    whole = path.read_bytes()
    bad = {"cut": whole[:9000], "blank": bytes(len(whole)), "text": b"not a store"}[harm]
    path.write_bytes(bad)
    done = restore(made.path, str(path), LATER)
    assert done.aside is not None
    assert done.aside.read_bytes() == bad
    with closing(open_store(str(path))) as store:
        assert state(store) == made.note.state


def test_an_unfinished_journal_goes_aside_with_its_damaged_store(tmp_path: Path) -> None:
    for name in ("kits", "kits-journal"):
        (tmp_path / name).write_text(name)
    putting_back._move_aside(tmp_path / "kits", tmp_path / "aside")
    assert (tmp_path / "aside").read_text() == "kits"
    assert (tmp_path / "aside-journal").read_text() == "kits-journal"
    assert len(list(tmp_path.iterdir())) == 2


def test_the_database_of_another_program_is_not_replaced(made: Backup, tmp_path: Path) -> None:
    other = tmp_path / "other.db"
    with closing(sqlite3.connect(other)) as db:
        db.execute("CREATE TABLE a (b)")
        db.execute("PRAGMA application_id = 7")
    with pytest.raises(StoreError, match="another program"):
        restore(made.path, str(other), LATER)
    assert sorted(path.name for path in tmp_path.glob("other*")) == ["other.db"]


def test_a_store_that_another_window_writes_to_is_not_exchanged(
    bench: Bench, made: Backup, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(putting_back, "_SETTINGS", ("busy_timeout=50",))
    before = Path(bench.store.address).read_bytes()
    with closing(sqlite3.connect(bench.store.address, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(StoreError, match="can't be exchanged: database is locked"):
            restore(made.path, bench.store.address, LATER)
        other.execute("ROLLBACK")
    assert Path(bench.store.address).read_bytes() == before


@pytest.mark.parametrize("place", [0, 100, 5000, -1])
def test_a_single_changed_byte_of_a_backup_is_refused(
    bench: Bench, made: Backup, place: int
) -> None:
    content = bytearray(made.path.read_bytes())
    content[place] ^= 1
    made.path.write_bytes(content)
    before = state(bench.store)
    with pytest.raises(StoreError, match="changed or damaged since"):
        restore(made.path, bench.store.address, LATER)
    assert state(bench.store) == before


def test_a_backup_without_its_note_is_refused(bench: Bench, made: Backup) -> None:
    made.path.with_name(made.path.name + ".json").unlink()
    with pytest.raises(InventoryError, match="the note beside the backup is missing"):
        restore(made.path, bench.store.address, LATER)


def test_a_backup_that_is_not_there_is_refused(bench: Bench, made: Backup) -> None:
    made.path.unlink()
    with pytest.raises(StoreError, match="the backup can't be read: there is nothing of this name"):
        restore(made.path, bench.store.address, LATER)


def test_a_photograph_that_the_backup_lost_is_named(
    bench: Bench, made: Backup, tmp_path: Path
) -> None:
    (photo,) = made.note.photos
    (made.path.parent / "photos" / photo).unlink()
    done = restore(made.path, str(tmp_path / "new" / "kits.kitwright"), LATER)
    assert done.photos_missing == (photo,)
    assert restore(made.path, bench.store.address, LATER).photos_missing == ()


def test_a_backup_fills_an_empty_database_of_the_server_and_comes_back(
    bench: Bench, made: Backup, postgresql: Server, tmp_path: Path
) -> None:
    address = postgresql.empty()
    restore(made.path, address, LATER)
    with closing(open_store(address)) as store:
        assert state(store) == made.note.state
        back = back_up(store, LATER, tmp_path / "from the server")
    with pytest.raises(StoreError, match="there is a store already"):
        restore(made.path, address, LATER)
    restore(back.path, bench.store.address, LATER)
    assert state(bench.store) == made.note.state
    postgresql.drop(address)


def test_a_backup_that_was_changed_together_with_its_note_is_refused(
    bench: Bench, made: Backup
) -> None:
    harm(str(made.path), "UPDATE slip SET person = 'Bea' WHERE kit = 1 AND id = 6")
    note = replace(made.note, sha256=file_sha256(made.path))
    write_note(note, made.path.parent)
    with pytest.raises(StoreError, match="the backup doesn't verify: movement 5"):
        restore(made.path, bench.store.address, LATER)


def test_a_backup_that_cannot_be_copied_whole_is_not_put_in_place(
    made: Backup, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def half(source: Path, target: Path) -> None:
        target.write_bytes(source.read_bytes()[:5000])

    monkeypatch.setattr(shutil, "copyfile", half)
    with pytest.raises(StoreError, match="could not be copied whole"):
        restore(made.path, str(tmp_path / "new" / "kits"), LATER)
    assert list((tmp_path / "new").iterdir()) == []
