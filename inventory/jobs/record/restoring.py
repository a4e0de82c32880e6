"""Restore: a backup takes the store's place; the store that was there is put aside, never lost."""

from __future__ import annotations

from contextlib import closing
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError, StoreError
from inventory.core.frozen import frozen
from inventory.jobs.record.verifying import verify_within
from inventory.store.kits import all_kits
from inventory.store.ledger.slips import all_slips
from inventory.store.opening.address import is_file, path_of
from inventory.store.opening.database import bring_up, create_store, look_at, open_store, schema_of
from inventory.store.receiving.photo_records import photo_folder
from inventory.store.record.backup_files import (
    PHOTOS,
    copy_photos,
    note_of,
    worded,
)
from inventory.store.record.copies import file_sha256
from inventory.store.record.putting_back import put_back
from inventory.store.record.refilling import fill_from_store

if TYPE_CHECKING:
    from datetime import datetime
    from pathlib import Path

    from inventory.core.record.backups import Note
    from inventory.store.ledger.slips import RecordedSlip
    from inventory.store.opening.database import Connection


@frozen
class Restored:
    """A backup that is the store now."""

    note: Note
    aside: Path | None
    """Where the store that was there lies now."""
    later: tuple[tuple[str, RecordedSlip], ...]
    """Acts, each with its kit's code, that only the store put aside holds."""
    photos_missing: tuple[str, ...]


def restore(backup: Path, address: str, now: datetime) -> Restored:
    """Put a backup in the store's place, after it was verified whole."""
    note = checked_backup(backup)
    aside = None
    if is_file(address):
        path = path_of(address)
        with worded("the backup could not be put in place", path.parent):
            aside = put_back(backup, note.sha256, path, f"{now:%Y%m%dT%H%M%SZ}")
        open_store(address).close()  # brings an older one up to date
    else:
        _into_database(backup, address)
    missing = copy_photos(backup.parent / PHOTOS, photo_folder(address), list(note.photos))
    return Restored(note, aside, _only_there(aside, address), tuple(missing))


def checked_backup(backup: Path) -> Note:
    """Return the note of a backup that is whole; refuse one of which a single bit was changed."""
    note = note_of(backup)
    with worded("the backup can't be read", backup):
        digest = file_sha256(backup)
    if digest != note.sha256:
        raise StoreError(
            "the backup was changed or damaged since it was made",
            where=str(backup),
            remedy="Take another backup. The store is as it was.",
        )
    with closing(look_at(str(backup))) as store, store.reading() as db:
        for problem in verify_within(db, photos=None).problems:
            raise StoreError(
                f"the backup doesn't verify: {problem.what}",
                where=str(backup),
                remedy="Take another backup. The store is as it was.",
            )
    return note


def _into_database(backup: Path, address: str) -> None:
    """Fill an empty database of the server; one that holds a store is refused."""
    with closing(look_at(str(backup))) as store, store.reading() as source:

        def fill(db: Connection) -> None:
            fill_from_store(db, source)
            bring_up(db)

        create_store(address, fill, schema_of(source)).close()


def _only_there(aside: Path | None, address: str) -> tuple[tuple[str, RecordedSlip], ...]:
    """Return the acts of the store put aside that the restored one doesn't have."""
    if aside is None:
        return ()
    with closing(open_store(address)) as store, store.reading() as db:
        known = {
            (kit.code, each.slip.key) for kit in all_kits(db) for each in all_slips(db, kit.id)
        }
    try:
        with closing(look_at(str(aside))) as store, store.reading() as db:
            return tuple(
                (kit.code, each)
                for kit in all_kits(db)
                for each in all_slips(db, kit.id)
                if (kit.code, each.slip.key) not in known
            )
    except InventoryError:  # it may be put aside because it is damaged
        return ()
