"""Export: the whole record as plain text that needs no program of ours to be read."""

from __future__ import annotations

import os
import shutil
from contextlib import contextmanager
from hashlib import sha256
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError, StoreError
from inventory.core.frozen import frozen
from inventory.core.record.export_form import Foot, foot_line, head_line
from inventory.jobs.record.record_tables import record_tables
from inventory.store.kits import all_kits
from inventory.store.opening.address import shown
from inventory.store.opening.database import SCHEMA, schema_of
from inventory.store.receiving.photo_records import photo_folder
from inventory.store.record.backup_files import (
    copy_photos,
    new_file,
    photos_in,
    worded,
    write_whole,
)
from inventory.store.record.copies import sync_file, sync_folder
from inventory.store.record.saving import lines_that_read, what_is_left
from inventory.store.record.state import record_lines

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator
    from pathlib import Path

    from inventory.jobs.record.record_tables import RecordTable
    from inventory.store.opening.database import Store

RECORD = "record.jsonl"
PHOTOS = "photos"
READ_ME = """\
This folder holds the whole record of a Kitwright store.

record.jsonl  one JSON object a line, UTF-8. `kitwright rebuild` makes an identical store of it.
  First line: the form's number and the store's schema.
  Then every row, table after table, in the order of its key: "table" names it, "kit" the kit it
  belongs to; other keys are the columns. A movement takes "quantity" of "item" from place
  "origin" to place "destination" under act "slip"; an item is a "part" of one hand, lot, length
  and state. Quantities are whole numbers in the unit of the part's "measure": pieces, length in
  nanometres, mass in nanograms, volume in picolitres, area in square micrometres. "length" is in
  nanometres. Bytes are hexadecimal. "chain" is the SHA-256 over the link before it and the
  movement's words. A source_row may stand for several rows of a sheet that follow each other: its
  "cells" are then a list of lists, one for each row from "row" on.
  Last line: rows of each table, and the SHA-256 of all row lines with their line ends.
photos/       photographs, named by the SHA-256 of their content.
*.csv         copies for people and spreadsheets: a text that could be taken for a formula has an
  apostrophe in front. `rebuild` doesn't read them.
"""


@frozen
class Exported:
    """What was exported."""

    folder: Path
    foot: Foot
    photos: int
    photos_missing: tuple[str, ...]


def export(store: Store, folder: Path, as_csv: Callable[[RecordTable], bytes]) -> Exported:
    """Write the whole record into a new folder; `as_csv` writes one of the tables for people."""
    with _new_folder(folder) as made, store.reading() as db:
        foot = made.record(record_lines(db), schema_of(db), [])
        for kit in all_kits(db):
            for table in record_tables(db, kit):
                made.file(f"{table.kit}-{table.name}.csv", as_csv(table))
        return made.finished(foot, photo_folder(store.address))


def export_what_reads(address: str, folder: Path) -> Exported:
    """Write what can still be read of a damaged store; the store itself isn't touched."""
    lost: list[str] = []
    with _new_folder(folder) as made, what_is_left(address) as store, store.reading() as db:
        foot = made.record(lines_that_read(db, lost), SCHEMA, lost)
        if not foot.rows:
            raise StoreError(
                "nothing of the store can be read",
                where=shown(address),
                remedy="Restore a backup: kitwright backup --list, then kitwright restore",
            )
        return made.finished(foot, photo_folder(address))


@contextmanager
def _new_folder(path: Path) -> Iterator[_Folder]:
    """Give a folder to fill; it gets its name only when it is whole, and leaves nothing else."""
    made = _Folder(path)
    with worded("the export could not be written", path):
        if path.exists() and (not path.is_dir() or any(path.iterdir())):
            raise InventoryError(
                "there is something here already",
                where=str(path),
                remedy="Name a new folder with -o.",
            )
        made.part.mkdir(mode=0o700, parents=True)
        try:
            yield made
        finally:
            shutil.rmtree(made.part, ignore_errors=True)


@frozen
class _Folder:
    """A folder that is filled under another name, and gets its own when it is whole."""

    path: Path

    @property
    def part(self) -> Path:
        """Where the files lie until all are there."""
        return self.path.with_name(f".{self.path.name}.{os.getpid()}.part")

    def file(self, name: str, content: bytes) -> None:
        """Write one file."""
        write_whole(self.part / name, content)

    def record(self, lines: Iterable[tuple[str, str]], schema: int, lost: list[str]) -> Foot:
        """Write the record's lines between head and foot."""
        rows: dict[str, int] = {}
        digest = sha256()
        with new_file(self.part / RECORD) as file:
            file.write(f"{head_line(schema)}\n".encode())
            for table, line in lines:
                rows[table] = rows.get(table, 0) + 1
                written = f"{line}\n".encode()
                digest.update(written)
                file.write(written)
            foot = Foot(rows, digest.hexdigest(), "; ".join(lost))
            file.write(f"{foot_line(foot)}\n".encode())
        sync_file(self.part / RECORD)
        return foot

    def finished(self, foot: Foot, photos: Path) -> Exported:
        """Add the photographs and the words for people, and give the folder its name."""
        names = photos_in(photos)
        missing = copy_photos(photos, self.part / PHOTOS, names)
        self.file("README.txt", READ_ME.encode())
        if self.path.exists():
            self.path.rmdir()
        self.part.rename(self.path)
        sync_folder(self.path.parent)
        return Exported(self.path, foot, len(names) - len(missing), tuple(missing))
