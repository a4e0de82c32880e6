"""Backups: only called done after they were read back whole."""

from __future__ import annotations

import os
from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING

from inventory import __version__
from inventory.core.errors import InventoryError, StoreError
from inventory.core.frozen import frozen
from inventory.core.record.backups import Note, backup_name
from inventory.core.record.chain import printed_seal
from inventory.core.record.rotation import spare_backups
from inventory.jobs.acts import EVERY_IS_MULTIPLE_OF
from inventory.jobs.record.verifying import verify_within
from inventory.store.kits import all_kits
from inventory.store.ledger.movements import last_link
from inventory.store.opening.address import is_file, path_of
from inventory.store.opening.database import look_at, schema_of
from inventory.store.receiving.photo_records import photo_folder
from inventory.store.record.backup_files import (
    PHOTOS,
    backups_in,
    copy_photos,
    make_folder,
    photos_in,
    put_in_place,
    remove_backup,
    usual_folder,
    worded,
    write_note,
)
from inventory.store.record.copies import copy_store, file_sha256
from inventory.store.record.state import row_counts, state_of
from inventory.store.settings import STORE_ID, set_setting, setting

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import datetime

    from inventory.store.opening.database import Connection, Store

FOLDER = "backup folder"
"""Name of the setting that says where backups go."""
EVERY = "backup every"
"""Name of the setting that says after how many acts one is made by itself; 0 for never."""


@frozen
class Backup:
    """A backup that was read back whole."""

    path: Path
    note: Note
    removed: tuple[Path, ...] = ()
    """Older backups that were cleared away."""


@frozen
class _Moment:
    """What the copy must agree with: how much the store held, and the ends of its chains."""

    rows: Mapping[str, int]
    seals: Mapping[str, str]


def back_up(store: Store, now: datetime, folder: Path | None = None) -> Backup:
    """Copy the store and its photographs, read the copy back, and clear old backups away."""
    folder = folder or folder_of(store)
    make_folder(folder)
    stem = path_of(store.address).stem if is_file(store.address) else "kits"
    path = folder / backup_name(stem, now)
    if path.exists():
        raise InventoryError(
            "there is a backup of this second already",
            where=str(path),
            remedy="It is as good as a new one.",
        )
    part = folder / f".{path.name}.{os.getpid()}.part"
    with worded("the backup could not be written", folder):
        try:
            note = _copied(store, now, part, path.name)
            write_note(note, folder)
            put_in_place(part, path)
        finally:
            part.unlink(missing_ok=True)
        return Backup(path, note, _cleared(folder, note))


def _copied(store: Store, now: datetime, part: Path, name: str) -> Note:
    with store.reading() as db:
        moment = _moment(db)  # the first question begins the moment that is then copied
        copy_store(store, db, part)
    photos = photos_in(photo_folder(store.address))
    changed = copy_photos(photo_folder(store.address), part.parent / PHOTOS, photos)
    note = _read_back(part, now, name, photos)
    if (note.rows, note.seals) != (moment.rows, moment.seals) or changed:
        raise StoreError(
            "the backup isn't what the store held" if not changed else "a photograph was changed",
            where=str(part.parent),
            remedy="Try again; if it stays so, look at the disk: kitwright verify",
        )
    return note


def _moment(db: Connection) -> _Moment:
    seals = {kit.code: printed_seal(*last_link(db, kit.id)) for kit in all_kits(db)}
    return _Moment(row_counts(db), seals)


def _read_back(part: Path, now: datetime, name: str, photos: list[str]) -> Note:
    """Verify the copy as it lies on the disk and return what is to be noted beside it."""
    with closing(look_at(str(part))) as copy, copy.reading() as db:
        for problem in verify_within(db, photos=None).problems:
            raise StoreError(
                f"the backup doesn't verify: {problem.what}",
                where=problem.where,
                remedy="Run `kitwright verify`: the store itself may be damaged.",
            )
        state = state_of(db)
        moment = _moment(db)
        return Note(
            file=name,
            sha256=file_sha256(part),
            state=state.sha256,
            schema=schema_of(db),
            program=__version__,
            store=setting(db, STORE_ID),
            made_at=now,
            rows=moment.rows,
            seals=moment.seals,
            photos=tuple(photos),
        )


def _cleared(folder: Path, note: Note) -> tuple[Path, ...]:
    """Clear older backups of the same store away, as the rotation says."""
    there = backups_in(folder, note.store)
    spare = set(spare_backups([each.made_at for _, each in there], note.made_at))
    gone = [path for path, each in there if each.made_at in spare]
    for path in gone:
        remove_backup(path)
    return tuple(gone)


def folder_of(store: Store) -> Path:
    """Return where this store's backups go."""
    with store.reading() as db:
        chosen = setting(db, FOLDER)
    return Path(chosen) if chosen else usual_folder(store.address)


def choose(store: Store, *, folder: Path | None = None, every: int | None = None) -> None:
    """Keep where backups go, and after how many acts one is made by itself."""
    if every is not None and (every < 0 or every % EVERY_IS_MULTIPLE_OF):
        raise InventoryError(
            f"after {every} acts can't be", remedy="0 for never, else 25, 50, 75, 100 or so on."
        )
    with store.writing() as db:
        if folder is not None:
            set_setting(db, FOLDER, str(folder.expanduser().resolve()))
        if every is not None:
            set_setting(db, EVERY, str(every))


def known_backups(store: Store, folder: Path | None = None) -> list[Backup]:
    """Return the backups of this store in a folder, newest first."""
    with store.reading() as db:
        number = setting(db, STORE_ID)
    there = backups_in(folder or folder_of(store), number)
    return [Backup(path, note) for path, note in reversed(there)]
