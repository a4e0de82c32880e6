"""Opens a store, and gives connections for reading and for writing."""

from __future__ import annotations

from contextlib import contextmanager
from typing import TYPE_CHECKING

from sqlalchemy import Connection, text
from sqlalchemy.exc import DBAPIError

from inventory.core.errors import NoStoreError, StoreError
from inventory.core.frozen import frozen
from inventory.store.opening.address import is_file, path_of, shown
from inventory.store.opening.engine import APPLICATION_ID, looking_engine, make_engine
from inventory.store.opening.faults import refusal
from inventory.store.opening.files import BEGIN, check_file, make_file, no_store_of_ours
from inventory.store.opening.migrate import upgrade
from inventory.store.opening.one_moment import KEPT
from inventory.store.settings import STORE_ID, set_setting

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from sqlalchemy import Engine

__all__ = [
    "SCHEMA",
    "Connection",
    "Store",
    "begin_store",
    "bring_up",
    "create_store",
    "look_at",
    "open_store",
    "schema_of",
]

SCHEMA = 13
"""Number of the newest change in `migrations/versions`."""

_KIT_LOCK = 0x4B57
"""First half of PostgreSQL's advisory lock of a kit; the kit's number is the second."""


@frozen
class Store:
    """An open store."""

    address: str
    engine: Engine

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """Give a connection that sees one moment of the store and never writes."""
        with self._worded(), self.engine.connect() as plain:
            db = plain.execution_options(begin="DEFERRED", **{KEPT: {}})
            if db.dialect.name == "postgresql":
                db = db.execution_options(
                    isolation_level="REPEATABLE READ", postgresql_readonly=True
                )
            transaction = db.begin()
            try:
                yield db
            finally:
                transaction.rollback()

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


def begin_store(address: str) -> Store:
    """Begin a new, empty store with a number of its own; refused where one lies already."""
    import secrets  # noqa: PLC0415 - a store is begun once

    return create_store(address, lambda db: set_setting(db, STORE_ID, secrets.token_hex(4).upper()))


def create_store(address: str, fill: Callable[[Connection], object], schema: int = SCHEMA) -> Store:
    """Begin a new store and let `fill` add its first rows at `schema`, all in one transaction.

    The file is made before that: a crash in between leaves an empty file, which the next attempt
    takes over.
    """
    if is_file(address):
        make_file(path_of(address))
    store = Store(address, make_engine(address))
    try:
        with store.writing() as db:
            _refuse_second(db, address)
            upgrade(db, schema)
            fill(db)
    except BaseException:
        store.close()
        if is_file(address) and not path_of(address).stat().st_size:
            path_of(address).unlink()
        raise
    return store


def _refuse_second(db: Connection, address: str) -> None:
    if schema_of(db):
        raise StoreError(
            "there is a store already",
            where=shown(address),
            remedy="Open it, or name another place with --store.",
        )


def bring_up(db: Connection) -> None:
    """Run the changes that an older store lacks, in the caller's transaction."""
    if schema_of(db) < SCHEMA:
        upgrade(db, SCHEMA)


def open_store(address: str, before_upgrade: Callable[[Store, int], object] | None = None) -> Store:
    """Open a store that is there already; an older one is brought up to date first.

    `before_upgrade` is called with the store and its schema while nothing is changed yet.
    """
    if is_file(address):
        check_file(path_of(address))
    store = Store(address, make_engine(address))
    try:
        with store.reading() as db:
            schema = schema_of(db)
            _refuse_other(db, address, schema)
        _check_schema(address, schema)
        if schema < SCHEMA:
            if before_upgrade is not None:
                before_upgrade(store, schema)
            with store.writing() as db:
                bring_up(db)
    except BaseException:
        store.close()
        raise
    return store


def look_at(address: str) -> Store:
    """Open a file of SQLite without touching it: a backup, or what is left of a damaged store."""
    check_file(path_of(address))
    return Store(address, looking_engine(address))


def _refuse_other(db: Connection, address: str, schema: int) -> None:
    """Refuse the database of another program that a journal beside it had kept from being seen."""
    if db.dialect.name == "sqlite" and schema:
        marked = db.exec_driver_sql("PRAGMA application_id").scalar_one()
        if marked != APPLICATION_ID:
            raise no_store_of_ours(path_of(address))


def _check_schema(address: str, schema: int) -> None:
    if not schema:
        raise NoStoreError("there is no store here", where=shown(address), remedy=BEGIN)
    if schema > SCHEMA:
        raise StoreError(
            f"the store is of a newer Kitwright (schema {schema}, this one knows {SCHEMA})",
            where=shown(address),
            remedy="Install the newer Kitwright. Nothing was changed.",
        )


def schema_of(db: Connection) -> int:
    """Return the number of the newest change a store has; 0 where nothing was begun."""
    if db.dialect.name == "sqlite":
        return int(db.exec_driver_sql("PRAGMA user_version").scalar_one())
    if db.execute(text("SELECT to_regclass('alembic_version')")).scalar() is None:
        return 0
    return int(db.execute(text("SELECT version_num FROM alembic_version")).scalar_one())
