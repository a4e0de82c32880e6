"""What photographs show; the pictures themselves lie in a folder beside the store."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.store.ledger.by_slip import add_row, rows_that_count
from inventory.store.ledger.names import PartName, part_ids
from inventory.store.opening.address import is_file, path_of
from inventory.store.receiving.photos import KeptPhoto
from inventory.store.tables.deliveries import photo as photo_table

if TYPE_CHECKING:
    from sqlalchemy import Connection


@frozen(kw_only=True)
class PhotoOf:
    """What a photograph shows; empty is what nobody said."""

    caption: str = ""
    delivery: int | None = None
    crate: str = ""
    part: str = ""
    """The part number's key."""


@frozen
class RecordedPhoto:
    """A photograph as it stands in the record."""

    id: int
    kept: KeptPhoto
    of: PhotoOf


def photo_folder(address: str) -> Path:
    """Return the folder of a store's photographs: beside its file, else in the user's own."""
    if is_file(address):
        path = path_of(address)
        return path.with_name(path.name + ".photos")
    from platformdirs import user_data_path  # noqa: PLC0415 - only without a file of its own
    from sqlalchemy import make_url  # noqa: PLC0415

    database = make_url(address).database or "kitwright"
    return user_data_path("kitwright", appauthor=False) / f"{Path(database).name}.photos"


def add_photo(db: Connection, kit: int, slip: int, kept: KeptPhoto, of: PhotoOf) -> int:
    """Record what a kept photograph shows; return its number."""
    part = part_ids(db, kit, [PartName(of.part, of.part)])[of.part] if of.part else None
    return add_row(
        db,
        photo_table,
        kit,
        slip,
        sha256=kept.sha256,
        kind=kept.kind,
        name=kept.name,
        width=kept.width,
        height=kept.height,
        caption=of.caption,
        delivery=of.delivery,
        crate=of.crate,
        part=part,
    )


def all_photos(db: Connection, kit: int) -> list[RecordedPhoto]:
    """Return the photographs that aren't undone, oldest first."""
    return [
        RecordedPhoto(
            row["id"],
            KeptPhoto(row["sha256"], row["kind"], row["width"], row["height"], row["name"]),
            PhotoOf(
                caption=row["caption"],
                delivery=row["delivery"],
                crate=row["crate"],
                part=row["part_key"] or "",
            ),
        )
        for row in rows_that_count(db, photo_table, kit)
    ]
