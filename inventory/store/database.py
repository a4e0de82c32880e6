"""Opens a store, and gives connections for reading and for writing."""

from __future__ import annotations

import os
import secrets
import stat
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from sqlalchemy import Connection, text
from sqlalchemy.exc import DBAPIError

from inventory.core.errors import NoStoreError, StoreError
from inventory.store.address import is_file, shown
from inventory.store.engine import APPLICATION_ID, make_engine
from inventory.store.faults import refusal
from inventory.store.migrate import upgrade
from inventory.store.settings import STORE_ID, set_setting

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sqlalchemy import Engine

__all__ = ["SCHEMA", "Connection", "Store", "create_store", "open_store"]

SCHEMA = 4
"""Number of the newest change in `migrations/versions`."""

_KIT_LOCK = 0x4B57
"""First half of PostgreSQL's advisory lock of a kit; the kit's number is the second."""


@dataclass(frozen=True, slots=True)
class Store:
    """An open store."""

    address: str
    engine: Engine

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """Give a connection that sees one moment of the store and never writes."""
        with self._worded(), self.engine.connect() as plain:
            db = plain.execution_options(begin="DEFERRED")
            if db.dialect.name == "postgresql":
                db = db.execution_options(
                    isolation_level="REPEATABLE READ", postgresql_readonly=True
                )
            with db.begin():
                yield db

    @contextmanager
    def writing(self, kit: int = 0) -> Iterator[Connection]:
        """Give a connection for one act: all of it is stored, or nothing.

        Nobody else writes to the kit meanwhile, so that what is checked here still holds when it
        is acted upon. Kit 0 stands for the store's own records.
        """
        with self._worded(), self.engine.begin() as db:
            if db.dialect.name == "postgresql":
                db.execute(
                    text("SELECT pg_advisory_xact_lock(:lock, :kit)"),
                    {"lock": _KIT_LOCK, "kit": kit},
                )
            yield db

    def close(self) -> None:
        """Let go of all connections."""
        self.engine.dispose()

    @contextmanager
    def _worded(self) -> Iterator[None]:
        try:
            yield
        except DBAPIError as error:
            worded = refusal(error, shown(self.address))
            if worded is None:
                raise
            raise worded from error


def create_store(address: str) -> Store:
    """Begin a new, empty store; refused where a file lies there already."""
    if is_file(address):
        _make_file(Path(address).expanduser())
    store = Store(address, make_engine(address))
    try:
        with store.writing() as db:
            upgrade(db, SCHEMA)
            set_setting(db, STORE_ID, secrets.token_hex(4).upper())
    except BaseException:
        store.close()
        if is_file(address):
            Path(address).expanduser().unlink()  # nothing half-made stays behind
        raise
    return store


def open_store(address: str) -> Store:
    """Open a store that is there already; an older one is brought up to date first."""
    if is_file(address):
        _check_file(Path(address).expanduser())
    store = Store(address, make_engine(address))
    schema = _schema(store)
    if schema > SCHEMA:
        store.close()
        raise StoreError(
            f"the store is of a newer Kitwright (schema {schema}, this one knows {SCHEMA})",
            where=shown(address),
            remedy="Install the newer Kitwright. Nothing was changed.",
        )
    if schema < SCHEMA:
        with store.writing() as db:
            upgrade(db, SCHEMA)
    return store


def _make_file(path: Path) -> None:
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        os.close(os.open(path, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))
    except FileExistsError as error:
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


def _check_file(path: Path) -> None:
    remedy = "Begin one with `kitwright kit new NAME`, or name another with --store."
    try:
        status = path.stat()
    except OSError as error:
        raise NoStoreError("there is no store here", where=str(path), remedy=remedy) from error
    if not stat.S_ISREG(status.st_mode):
        raise StoreError("this isn't a file", where=str(path), remedy=remedy)
    if status.st_nlink > 1:
        raise StoreError(
            "the file has a second name (hard link); two names for one store can damage it",
            where=str(path),
            remedy="Keep one of the names and remove the other.",
        )
    with path.open("rb") as file:
        head = file.read(72)
    if head[:16] != b"SQLite format 3\0" or head[68:72] != APPLICATION_ID.to_bytes(4, "big"):
        raise StoreError("the file isn't a Kitwright store", where=str(path), remedy=remedy)


def _schema(store: Store) -> int:
    with store.reading() as db:
        if db.dialect.name == "sqlite":
            return int(db.exec_driver_sql("PRAGMA user_version").scalar_one())
        if db.execute(text("SELECT to_regclass('alembic_version')")).scalar() is None:
            raise NoStoreError(
                "the database holds no Kitwright store",
                where=shown(store.address),
                remedy="Begin one with `kitwright kit new NAME`.",
            )
        return int(db.execute(text("SELECT version_num FROM alembic_version")).scalar_one())
