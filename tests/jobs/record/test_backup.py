"""A backup is called done only after it was read back whole."""

from __future__ import annotations

import os
import shutil
import time
from contextlib import closing, suppress
from datetime import timedelta
from typing import TYPE_CHECKING

import pytest

from inventory.core.errors import InventoryError, StoreError
from inventory.jobs.record import backup
from inventory.jobs.record.backup import back_up, choose, folder_of, known_backups
from inventory.jobs.record.verifying import Verified
from inventory.store.opening.database import look_at, open_store
from inventory.store.receiving.photo_records import photo_folder
from inventory.store.record.backup_files import make_folder, note_of, usual_folder
from inventory.store.record.copies import copy_store, file_sha256, sync_folder
from tests.conftest import NOW
from tests.jobs.recorded import harm, recorded, state
from tests.people import reachable_folder, without_rights
from tests.store.test_faults import largest_file

if TYPE_CHECKING:
    from pathlib import Path

    from inventory.store.opening.database import Store


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_a_backup_holds_what_the_store_holds(store: Store, tmp_path: Path) -> None:
    recorded(store)
    made = back_up(store, NOW, tmp_path / "backups")
    assert made.path.parent == tmp_path / "backups"
    assert made.note == note_of(made.path)
    assert made.note.sha256 == file_sha256(made.path)
    assert made.note.state == state(store)
    assert (made.note.rows["movement"], made.note.rows["kit"]) == (9, 2)
    with closing(look_at(str(made.path))) as copy:
        assert state(copy) == made.note.state
    (photo,) = made.note.photos
    assert (tmp_path / "backups" / "photos" / photo).is_file()


def test_a_backup_is_itself_a_store(sqlite_store: Store, tmp_path: Path) -> None:
    recorded(sqlite_store)
    made = back_up(sqlite_store, NOW, tmp_path / "b")
    with closing(open_store(str(made.path))) as copy:
        assert state(copy) == state(sqlite_store)


def test_a_backup_is_for_its_owner_alone(store: Store, tmp_path: Path) -> None:
    recorded(store)
    made = back_up(store, NOW, tmp_path / "b")
    files = [path for path in (tmp_path / "b").rglob("*") if path.is_file()]
    assert {path.stat().st_mode & 0o777 for path in files} == {0o600}
    assert made.path.parent.stat().st_mode & 0o777 == 0o700
    assert len(files) == 3


def test_backups_go_beside_the_store_unless_another_folder_was_chosen(
    sqlite_store: Store, tmp_path: Path
) -> None:
    assert folder_of(sqlite_store) == tmp_path / "backups"
    choose(sqlite_store, folder=tmp_path / "stick", every=50)
    assert back_up(sqlite_store, NOW).path.parent == tmp_path / "stick"
    choose(sqlite_store)
    assert folder_of(sqlite_store) == tmp_path / "stick"


def test_backups_of_the_server_go_to_the_users_folder(postgresql_address: str) -> None:
    assert usual_folder(postgresql_address).name == "backups"
    assert "kitwright" in str(usual_folder(postgresql_address))


def test_two_backups_of_one_second_are_one(sqlite_store: Store) -> None:
    back_up(sqlite_store, NOW)
    with pytest.raises(InventoryError, match="a backup of this second"):
        back_up(sqlite_store, NOW)


def test_older_backups_are_cleared_away_by_the_rotation(sqlite_store: Store) -> None:
    for number in range(10):
        assert back_up(sqlite_store, NOW + timedelta(minutes=number)).removed == ()
    made = back_up(sqlite_store, NOW + timedelta(minutes=10))
    assert [path.name for path in made.removed] == ["store-20261125T100000Z.kitwright"]
    assert len(known_backups(sqlite_store)) == 10
    assert len(names(made.path.parent)) == 20


def test_only_backups_of_this_store_with_their_note_are_known(
    sqlite_store: Store, tmp_path: Path
) -> None:
    made = back_up(sqlite_store, NOW, tmp_path / "b")
    back_up(sqlite_store, NOW + timedelta(hours=1), tmp_path / "b")
    (tmp_path / "b" / "stray.kitwright").write_text("no note")
    other = tmp_path / "b" / "other.kitwright"
    other.write_text("of another store")
    note = made.path.with_name(made.path.name + ".json")
    text = note.read_text().replace(made.note.store, "FFFFFFFF")
    other.with_name("other.kitwright.json").write_text(text)
    assert [each.path.name for each in known_backups(sqlite_store, tmp_path / "b")] == [
        "store-20261125T110000Z.kitwright",
        "store-20261125T100000Z.kitwright",
    ]


@pytest.fixture
def spoilt_copies(monkeypatch: pytest.MonkeyPatch) -> None:
    """Copy as a failing disk does: a seal in the copy isn't what was written."""

    def spoilt(store: Store, db: object, target: Path) -> None:
        copy_store(store, db, target)  # type: ignore[arg-type]
        harm(str(target), "UPDATE movement SET chain = zeroblob(32) WHERE kit = 1 AND id = 3")

    monkeypatch.setattr(backup, "copy_store", spoilt)


def is_called_done(store: Store, folder: Path) -> bool:
    """Say whether a backup is made of the store, and stands in the folder as one."""
    recorded(store)
    with suppress(StoreError):
        return back_up(store, NOW, folder).path.name in names(folder)
    return False


@pytest.mark.usefixtures("spoilt_copies")
def test_a_copy_that_is_not_what_the_store_held_is_no_backup(
    sqlite_store: Store, tmp_path: Path
) -> None:
    assert not is_called_done(sqlite_store, tmp_path / "b")
    with pytest.raises(StoreError, match="the backup doesn't verify"):
        back_up(sqlite_store, NOW, tmp_path / "b")
    assert [name for name in names(tmp_path / "b") if name != "photos"] == []


@pytest.mark.usefixtures("spoilt_copies")
def test_without_reading_it_back_a_spoilt_copy_would_be_called_a_backup(
    sqlite_store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The control: it is the reading back that finds the copy out."""
    monkeypatch.setattr(backup, "verify_within", lambda *_, **__: Verified((), ()))
    assert is_called_done(sqlite_store, tmp_path / "b")


def test_a_copy_of_an_earlier_moment_is_no_backup(
    sqlite_store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, migrated_file: Path
) -> None:
    recorded(sqlite_store)
    monkeypatch.setattr(backup, "copy_store", lambda *named: shutil.copy(migrated_file, named[2]))
    with pytest.raises(StoreError, match="isn't what the store held"):
        back_up(sqlite_store, NOW, tmp_path / "b")
    assert [name for name in names(tmp_path / "b") if name != "photos"] == []


def test_a_photograph_that_was_changed_stops_the_backup(
    sqlite_store: Store, tmp_path: Path
) -> None:
    recorded(sqlite_store)
    (photo,) = photo_folder(sqlite_store.address).iterdir()
    photo.write_bytes(b"other")
    with pytest.raises(StoreError, match="a photograph was changed"):
        back_up(sqlite_store, NOW, tmp_path / "b")


def test_a_folder_that_cannot_be_used_leaves_the_store_as_it_is(
    sqlite_store: Store, tmp_path: Path
) -> None:
    (tmp_path / "file").write_text("")
    with pytest.raises(StoreError, match="the folder of backups can't be used"):
        back_up(sqlite_store, NOW, tmp_path / "file" / "b")


def test_a_folder_nobody_may_write_to_says_so() -> None:
    with reachable_folder() as folder:
        folder.chmod(0o555)
        with without_rights(), pytest.raises(StoreError, match="Permission denied"):
            make_folder(folder / "b")


def test_an_unfinished_file_of_a_crash_is_cleared_away_after_an_hour(
    sqlite_store: Store, tmp_path: Path
) -> None:
    folder = tmp_path / "b"
    folder.mkdir()
    for name, age in ((".old.part", 7200), (".new.part", 60)):
        (folder / name).touch()
        os.utime(folder / name, (time.time() - age, time.time() - age))
    back_up(sqlite_store, NOW, folder)
    assert [name for name in names(folder) if name.endswith(".part")] == [".new.part"]


@pytest.mark.parametrize("every", [-25, 1, 30])
def test_how_often_must_be_a_multiple_of_25_acts(sqlite_store: Store, every: int) -> None:
    with pytest.raises(InventoryError, match=f"after {every} acts"):
        choose(sqlite_store, every=every)


def test_a_disk_that_fills_while_copying_is_said_and_leaves_nothing(
    sqlite_store: Store, tmp_path: Path
) -> None:
    recorded(sqlite_store)
    with largest_file(50_000), pytest.raises(StoreError, match="the copy could not be written"):
        back_up(sqlite_store, NOW, tmp_path / "b")
    assert list((tmp_path / "b").iterdir()) == []


def test_a_system_that_opens_no_folders_syncs_none(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: object) -> int:
        raise PermissionError

    monkeypatch.setattr(os, "open", refuse)
    sync_folder(tmp_path)
