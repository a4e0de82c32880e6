"""A backup's file put in the store's place; the store that was there stays beside it.

A store that can be opened is locked, copied aside, and overwritten in one transaction of SQLite:
other windows that have it open see the change, and a crash leaves the old store or the new one.
A file too damaged for that is moved aside instead.
"""

from __future__ import annotations

import os
import shutil
import sqlite3
from contextlib import closing
from typing import TYPE_CHECKING
from urllib.parse import quote

from inventory.core.errors import StoreError
from inventory.store.opening.engine import APPLICATION_ID
from inventory.store.opening.files import OWNER_ONLY
from inventory.store.record.copies import file_sha256, sync_file, sync_folder

if TYPE_CHECKING:
    from pathlib import Path

_SETTINGS = ("busy_timeout=10000", "synchronous=EXTRA", "fullfsync=1", "locking_mode=EXCLUSIVE")
_UNREADABLE = ("SQLITE_NOTADB", "SQLITE_CORRUPT")


def put_back(backup: Path, sha256: str, path: Path, mark: str) -> Path | None:
    """Make the store at `path` what the backup holds; return where the old one lies now."""
    if not path.exists() or not path.stat().st_size:
        _place(backup, sha256, path)
        return None
    aside = path.with_name(f"{path.stem}-aside-{mark}{path.suffix}")
    try:
        _overwrite(backup, path, aside)
    except sqlite3.Error as error:
        aside.unlink(missing_ok=True)
        if not getattr(error, "sqlite_errorname", "").startswith(_UNREADABLE):
            raise StoreError(
                f"the store can't be exchanged: {error}",
                where=str(path),
                remedy="Close the other windows that have it open. The store is as it was.",
            ) from error
        _move_aside(path, aside)
        _place(backup, sha256, path)
    return aside


def _overwrite(backup: Path, path: Path, aside: Path) -> None:
    with closing(sqlite3.connect(path, isolation_level=None)) as store:
        for setting in _SETTINGS:
            store.execute(f"PRAGMA {setting}")
        store.execute("BEGIN EXCLUSIVE")
        if store.execute("PRAGMA application_id").fetchone()[0] not in {0, APPLICATION_ID}:
            raise _foreign(path)
        store.execute("COMMIT")  # the lock stays until the connection is closed
        os.close(os.open(aside, os.O_CREAT | os.O_EXCL | os.O_WRONLY, OWNER_ONLY))
        with closing(sqlite3.connect(aside)) as kept:
            store.backup(kept)
        sync_file(aside)
        sync_folder(aside.parent)
        with closing(
            sqlite3.connect(f"file:{quote(str(backup.resolve()))}?mode=ro", uri=True)
        ) as new:
            new.backup(store)


def _foreign(path: Path) -> StoreError:
    return StoreError(
        "there lies the database of another program",
        where=str(path),
        remedy="Name another place with --store.",
    )


def _move_aside(path: Path, aside: Path) -> None:
    journal = path.with_name(f"{path.name}-journal")
    if journal.exists():
        journal.replace(aside.with_name(f"{aside.name}-journal"))
    path.replace(aside)
    sync_folder(path.parent)


def _place(backup: Path, sha256: str, path: Path) -> None:
    """Copy the backup to where no store is yet."""
    path.parent.mkdir(parents=True, exist_ok=True)
    part = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        shutil.copyfile(backup, part)
        part.chmod(OWNER_ONLY)
        sync_file(part)
        if file_sha256(part) != sha256:
            raise StoreError(
                "the backup could not be copied whole",
                where=str(path),
                remedy="Look at the disk. Nothing was put in place.",
            )
        part.replace(path)
        sync_folder(path.parent)
    finally:
        part.unlink(missing_ok=True)
