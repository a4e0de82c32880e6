"""A store with a record in it, to be backed up, verified, exported and harmed."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

from PIL import Image

from inventory.core.record.ledger import Movement
from inventory.documents.tables import Table, to_csv
from inventory.jobs.acts import Bench, acting
from inventory.jobs.kits import begin_kit
from inventory.store.opening.database import open_store
from inventory.store.receiving.photo_records import PhotoOf, add_photo, photo_folder
from inventory.store.receiving.photos import keep_photo
from inventory.store.record.state import state_of
from tests.conftest import NOW, slip
from tests.store.filled import BIN, RIB, SUPPLIER, fill

if TYPE_CHECKING:
    from inventory.jobs.record.record_tables import RecordTable
    from inventory.store.opening.database import Store


def recorded(store: Store) -> Bench:
    """Fill an empty store with two kits, acts of each kind, and a photograph."""
    bench = Bench(store, begin_kit(store, "Tarn T2", "T2", NOW))
    fill(bench, devices=False)
    other = Bench(store, begin_kit(store, "Tern", "TE", NOW))
    with acting(other, "bin put", slip("t-1")) as act:
        act.move([Movement(RIB, 3, SUPPLIER, BIN)])
    photograph(bench)
    return bench


def photograph(bench: Bench) -> None:
    picture = BytesIO()
    Image.new("RGB", (8, 6), "red").save(picture, "PNG")
    kept = keep_photo(photo_folder(bench.store.address), picture.getvalue(), "crate.png")
    with acting(bench, "photo", slip("photo")) as act:
        add_photo(act.db, bench.kit.id, act.recorded.id, kept, PhotoOf(caption="Deckel"))


def state(store: Store) -> str:
    """Return the hash over the whole record."""
    with store.reading() as db:
        return state_of(db).sha256


def as_csv(table: RecordTable) -> bytes:
    return to_csv(Table(table.name, table.headings, table.rows))


def harm(address: str, *statements: str) -> None:
    """Change a store by other means than Kitwright: guards taken off and put on again."""
    with closing(sqlite3.connect(address, isolation_level=None)) as db:
        guards = db.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'").fetchall()
        drops = [f"DROP TRIGGER {name}" for name, _ in guards]
        for each in ("BEGIN", *drops, *statements, *(text for _, text in guards), "COMMIT"):
            db.execute(each)


def blank_page(address: str, holding: bytes) -> None:
    """Overwrite the page of a file that holds these bytes with zeros."""
    path = Path(address)
    content = bytearray(path.read_bytes())
    page = content.index(holding) // 4096 * 4096
    content[page : page + 4096] = bytes(4096)
    path.write_bytes(content)


def opened(address: str) -> closing[Store]:
    return closing(open_store(address))
