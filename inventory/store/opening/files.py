"""The file a store lies in: made for its owner alone, and looked at before it is opened."""

from __future__ import annotations

import os
import stat
from typing import TYPE_CHECKING

from inventory.core.errors import NoStoreError, StoreError
from inventory.store.opening.engine import APPLICATION_ID

if TYPE_CHECKING:
    from os import stat_result
    from pathlib import Path

OWNER_ONLY = 0o600
BEGIN = "Begin one with `kitwright kit new NAME`, or name another with --store."
_HEAD = b"SQLite format 3\0"


def make_file(path: Path) -> None:
    """Make the empty file of a new store; an empty one that lies there is taken over."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        os.close(os.open(path, os.O_CREAT | os.O_EXCL | os.O_WRONLY, OWNER_ONLY))
    except FileExistsError as error:
        if path.is_file() and not path.stat().st_size:
            return
        raise StoreError(
            "there is a file already where the store should begin",
            where=str(path),
            remedy="Name another place with --store, or open this store.",
        ) from error
    except OSError as error:
        raise StoreError(
            f"the store can't be made: {error.strerror}",
            where=str(path),
            remedy="Name a folder that you may write to with --store.",
        ) from error


def check_file(path: Path) -> None:
    """Refuse what can't be a store, before anything is opened.

    Where a crash left a journal beside it, the file may be torn until SQLite has rolled it back:
    what it is shows only then.
    """
    try:
        status = path.stat()
    except (OSError, ValueError) as error:
        raise NoStoreError("there is no store here", where=str(path), remedy=BEGIN) from error
    _check_status(path, status)
    try:
        with path.open("rb") as file:
            head = file.read(72)
    except OSError as error:
        raise StoreError(
            f"the store can't be read: {error.strerror}",
            where=str(path),
            remedy="Check who owns the file and its folder.",
        ) from error
    if path.with_name(f"{path.name}-journal").exists():
        return
    if not head.startswith(_HEAD) or head[68:72] != APPLICATION_ID.to_bytes(4, "big"):
        raise no_store_of_ours(path)


def no_store_of_ours(path: Path) -> StoreError:
    """Return the refusal of another file."""
    return StoreError("the file isn't a Kitwright store", where=str(path), remedy=BEGIN)


def _check_status(path: Path, status: stat_result) -> None:
    if not stat.S_ISREG(status.st_mode):
        raise StoreError("this isn't a file", where=str(path), remedy=BEGIN)
    if status.st_nlink > 1:
        raise StoreError(
            "the file has a second name (hard link); two names for one store can damage it",
            where=str(path),
            remedy="Keep one of the names and remove the other.",
        )
    if not status.st_size:
        raise NoStoreError("the file is empty: no store was begun", where=str(path), remedy=BEGIN)
