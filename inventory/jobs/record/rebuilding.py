"""Rebuild: an identical store made from an export."""

from __future__ import annotations

from contextlib import contextmanager
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError
from inventory.core.frozen import frozen
from inventory.core.record.export_form import read_head
from inventory.jobs.record.exporting import PHOTOS, RECORD
from inventory.jobs.record.verifying import verify_within
from inventory.store.opening.database import SCHEMA, bring_up, create_store
from inventory.store.receiving.photo_records import photo_folder
from inventory.store.record.backup_files import copy_photos, photos_in, worded
from inventory.store.record.refilling import fill_from_lines

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from pathlib import Path
    from typing import TextIO

    from inventory.core.record.export_form import Foot
    from inventory.store.opening.database import Connection, Store


@frozen
class Rebuilt:
    """A store made from an export."""

    store: Store
    foot: Foot
    photos: int


def rebuild(source: Path, address: str) -> Rebuilt:
    """Make a new store from an export's folder or its record file; all of it or nothing."""
    path = source / RECORD if source.is_dir() else source
    with worded("the export can't be read", path), _utf8(path) as lines:
        schema = read_head(lines.readline())
        if schema > SCHEMA:
            raise InventoryError(
                f"the export is of a newer Kitwright: schema {schema}, this one knows {SCHEMA}",
                where=str(path),
                remedy="Install the newer Kitwright.",
            )
        feet: list[Foot] = []
        store = create_store(address, lambda db: feet.append(_filled(db, lines)), schema)
    names = photos_in(path.parent / PHOTOS)
    missing = copy_photos(path.parent / PHOTOS, photo_folder(address), names)
    return Rebuilt(store, feet[0], len(names) - len(missing))


@contextmanager
def _utf8(path: Path) -> Iterator[TextIO]:
    try:
        with path.open(encoding="utf-8", newline="\n") as lines:
            yield lines
    except UnicodeDecodeError as error:
        raise InventoryError(
            "the export holds bytes that are no UTF-8",
            where=str(path),
            remedy="Take another copy of the export. Nothing was stored.",
        ) from error


def _filled(db: Connection, lines: Iterable[str]) -> Foot:
    foot = fill_from_lines(db, lines)
    bring_up(db)
    for problem in verify_within(db, photos=None).problems:
        raise InventoryError(
            f"the export doesn't verify: {problem.what}",
            where=problem.where,
            remedy="Take another copy of the export. Nothing was stored.",
        )
    return foot
