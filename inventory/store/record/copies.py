"""Copies of a store as one file of SQLite: consistent, synced, for their owner alone."""

from __future__ import annotations

import os
import sqlite3
from contextlib import closing
from hashlib import file_digest
from typing import TYPE_CHECKING, cast

from inventory.core.errors import StoreError
from inventory.store.opening.address import is_file
from inventory.store.opening.database import create_store, schema_of
from inventory.store.opening.files import OWNER_ONLY
from inventory.store.record.refilling import fill_from_store

if TYPE_CHECKING:
    from pathlib import Path

    from sqlalchemy import Connection

    from inventory.store.opening.database import Store


def copy_store(store: Store, db: Connection, target: Path) -> None:
    """Copy the moment of the store that `db` reads into a new file."""
    if is_file(store.address):
        _copy_pages(db, target)
    else:
        create_store(str(target), lambda new: fill_from_store(new, db), schema_of(db)).close()
    sync_file(target)


def _copy_pages(db: Connection, target: Path) -> None:
    """Copy page by page through SQLite's backup interface, in one step."""
    source = cast("sqlite3.Connection", db.connection.driver_connection)
    os.close(os.open(target, os.O_CREAT | os.O_EXCL | os.O_WRONLY, OWNER_ONLY))
    try:
        with closing(sqlite3.connect(target)) as copy:
            source.backup(copy)
    except sqlite3.Error as error:
        raise StoreError(
            f"the copy could not be written: {error}",
            where=str(target),
            remedy="Check the free space there. The store itself is as it was.",
        ) from error


def sync_file(path: Path) -> None:
    """Wait until a file's content is on the disk."""
    with path.open("rb") as file:
        os.fsync(file.fileno())


def sync_folder(folder: Path) -> None:
    """Wait until a folder's names are on the disk, where the system can do that."""
    try:
        number = os.open(folder, os.O_RDONLY)
    except PermissionError:  # a system that opens no folders
        return
    try:
        os.fsync(number)
    finally:
        os.close(number)


def file_sha256(path: Path) -> str:
    """Return the SHA-256 of a file's content."""
    with path.open("rb") as file:
        return file_digest(file, "sha256").hexdigest()
