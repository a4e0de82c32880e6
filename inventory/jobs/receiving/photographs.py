"""Photographs: kept beside the store, and recorded with what they show."""

from __future__ import annotations

import stat
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError
from inventory.jobs.acts import acting
from inventory.jobs.again import tried_again
from inventory.jobs.bench.finding_items import known_part
from inventory.jobs.receiving.receiving import known_crate
from inventory.store.receiving.deliveries import all_deliveries
from inventory.store.receiving.photo_records import (
    PhotoOf,
    RecordedPhoto,
    add_photo,
    all_photos,
    photo_folder,
)
from inventory.store.receiving.photos import keep_photo, read_photo
from inventory.store.receiving.pictures import MOST_BYTES

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench
    from inventory.store.receiving.photos import KeptPhoto

__all__ = ["PhotoOf", "RecordedPhoto", "photograph", "photographs", "picture", "read_file"]


def read_file(path: Path) -> tuple[str, bytes]:
    """Return a picture file's bare name and bytes; only a plain file of sensible size is read."""
    try:
        status = path.stat()
        if not stat.S_ISREG(status.st_mode):
            raise InventoryError("this is no file", where=str(path), remedy="Name a JPEG or PNG.")
        if status.st_size > MOST_BYTES:
            raise InventoryError(
                f"the picture has over {MOST_BYTES // 10**6} MB",
                where=str(path),
                remedy="Send it in a smaller size.",
            )
        return path.name, path.read_bytes()
    except OSError as fault:
        raise InventoryError(
            f"the picture can't be read: {fault.strerror}",
            where=str(path),
            remedy="Look at its name.",
        ) from fault


@tried_again
def photograph(
    bench: Bench, pictures: Sequence[tuple[str, bytes]], of: PhotoOf, slip: Slip
) -> list[KeptPhoto]:
    """Keep pictures by name and bytes, and record what they show; all of them or none.

    The pictures are kept before the act, so that no record names a picture that isn't there.
    """
    with bench.store.reading() as db:
        crate = known_crate(db, bench.kit, of.crate) if of.crate else ""
        part = known_part(db, bench.kit, of.part).key if of.part else ""
        numbers = {each.number for each in all_deliveries(db, bench.kit.id)}
    if of.delivery is not None and of.delivery not in numbers:
        raise InventoryError(
            f"there is no delivery {of.delivery}", remedy="Look: kitwright delivery show"
        )
    folder = photo_folder(bench.store.address)
    kept = [keep_photo(folder, raw, name) for name, raw in pictures]
    named = PhotoOf(caption=of.caption, delivery=of.delivery, crate=crate, part=part)
    with acting(bench, "photo", slip) as act:
        for each in kept:
            add_photo(act.db, bench.kit.id, act.recorded.id, each, named)
    return kept


def photographs(bench: Bench) -> list[RecordedPhoto]:
    """Return the photographs of the kit, oldest first."""
    with bench.store.reading() as db:
        return all_photos(db, bench.kit.id)


def picture(bench: Bench, sha256: str, kind: str) -> bytes:
    """Return a kept picture's bytes; refused where they are missing or were changed."""
    return read_photo(photo_folder(bench.store.address), sha256, kind)
