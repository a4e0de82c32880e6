"""Files of backups: written whole under a name of their own, found again, cleared away."""

from __future__ import annotations

import os
import re
import shutil
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, BinaryIO

from platformdirs import user_data_path

from inventory.core.errors import InventoryError, StoreError
from inventory.core.record.backups import BESIDE, SUFFIX, Note, note_text, read_note
from inventory.store.opening.address import is_file, path_of
from inventory.store.opening.files import OWNER_ONLY
from inventory.store.record.copies import file_sha256, sync_file, sync_folder

if TYPE_CHECKING:
    from collections.abc import Iterator

PHOTOS = "photos"
"""Folder beside the backups that holds the photographs of all of them, each once."""
_PHOTO = re.compile(r"([0-9a-f]{64})\.[a-z]{3,4}")
_FORSAKEN = 3600
"""Seconds after which an unfinished file is taken to be left by a crash."""


def usual_folder(address: str) -> Path:
    """Return where backups go when nobody said where: beside the store, or to the user's folder."""
    if is_file(address):
        return path_of(address).parent / "backups"
    return Path(user_data_path("kitwright", appauthor=False)) / "backups"


@contextmanager
def worded(what: str, where: Path) -> Iterator[None]:
    """Turn what the system says about a file into a refusal."""
    try:
        yield
    except FileNotFoundError as error:
        raise StoreError(
            f"{what}: there is nothing of this name",
            where=str(error.filename or where),
            remedy="Check the path. The store is as it was.",
        ) from error
    except OSError as error:
        raise StoreError(
            f"{what}: {error.strerror or error}",
            where=str(error.filename or where),
            remedy="Check the free space and who may write there. The store is as it was.",
        ) from error


def make_folder(folder: Path) -> None:
    """Make the folder for its owner alone, where it isn't there yet; clear old remains away."""
    with worded("the folder of backups can't be used", folder):
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        now = folder.stat().st_mtime
        for each in folder.glob(".*.part"):
            if now - each.stat().st_mtime > _FORSAKEN:
                each.unlink()


def new_file(path: Path) -> BinaryIO:
    """Open a file that only its owner may read, to be written from its beginning."""
    number = os.open(path, os.O_CREAT | os.O_TRUNC | os.O_WRONLY, OWNER_ONLY)
    return os.fdopen(number, "wb")


def write_note(note: Note, folder: Path) -> None:
    """Write the note beside a backup."""
    write_whole(folder / (note.file + BESIDE), note_text(note).encode())


def write_whole(path: Path, content: bytes) -> None:
    """Write a file so that its name never stands for half of it."""
    part = path.with_name(f".{path.name}.part")
    with new_file(part) as file:
        file.write(content)
    put_in_place(part, path)


def put_in_place(part: Path, path: Path) -> None:
    """Give a finished file its name."""
    sync_file(part)
    part.replace(path)
    sync_folder(path.parent)


def note_of(backup: Path) -> Note:
    """Return the note beside a backup."""
    beside = backup.with_name(backup.name + BESIDE)
    if not backup.exists():
        raise StoreError(
            "the backup can't be read: there is nothing of this name",
            where=str(backup),
            remedy="Look: kitwright backup --list. The store is as it was.",
        )
    try:
        text = beside.read_text(encoding="utf-8")
    except (OSError, ValueError) as error:
        raise InventoryError(
            "the note beside the backup is missing",
            where=str(beside),
            remedy="Copy both files of the backup: the one named .kitwright and its .json.",
        ) from error
    return read_note(text, str(beside))


def backups_in(folder: Path, store_id: str = "") -> list[tuple[Path, Note]]:
    """Return the backups with a note that lie in a folder, oldest first."""
    found = []
    for path in sorted(folder.glob(f"*{SUFFIX}")):
        try:
            note = note_of(path)
        except InventoryError:
            continue
        if store_id in ("", note.store):
            found.append((path, note))
    return sorted(found, key=lambda each: each[1].made_at)


def remove_backup(path: Path) -> None:
    """Remove a backup and its note; the photographs stay."""
    path.unlink()
    path.with_name(path.name + BESIDE).unlink()


def photos_in(folder: Path) -> list[str]:
    """Return the names of the photographs in a folder."""
    if not folder.is_dir():
        return []
    return sorted(each.name for each in folder.iterdir() if _PHOTO.fullmatch(each.name))


def copy_photos(source: Path, target: Path, names: list[str]) -> list[str]:
    """Copy photographs that aren't there yet; return those that are missing or were changed."""
    wrong = []
    for name in names:
        digest = name.partition(".")[0]
        if (target / name).is_file() and file_sha256(target / name) == digest:
            continue
        if not (source / name).is_file() or file_sha256(source / name) != digest:
            wrong.append(name)
            continue
        target.mkdir(mode=0o700, parents=True, exist_ok=True)
        part = target / f".{name}.part"
        shutil.copyfile(source / name, part)
        part.chmod(OWNER_ONLY)
        put_in_place(part, target / name)
    return wrong
