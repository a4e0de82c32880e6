"""Engines with the settings under which nothing acknowledged is lost.

SQLite: rollback journal with `synchronous=EXTRA` (the directory is synced after the journal is
unlinked, "PRAGMA synchronous" in SQLite's documentation) and BEGIN IMMEDIATE for every writer,
so that nobody else can act between a check and the act that relies on it.
"""

from __future__ import annotations

from time import monotonic
from typing import TYPE_CHECKING, Protocol

from sqlalchemy import create_engine, event
from sqlalchemy.exc import DisconnectionError

from inventory.core.errors import StoreError
from inventory.store.opening.address import is_file, url

if TYPE_CHECKING:
    from sqlalchemy import URL, Connection, Engine
    from sqlalchemy.engine.interfaces import DBAPIConnection
    from sqlalchemy.pool import ConnectionPoolEntry

APPLICATION_ID = 0x4B575254
"""Marks a SQLite file as a Kitwright store ("KWRT")."""

REST = 2.0
"""Seconds without use after which a connection to a server is asked whether it still stands."""
_SINCE = "laid down at"

PRAGMAS = {
    "busy_timeout": 10000,
    "foreign_keys": 1,
    "recursive_triggers": 1,
    "trusted_schema": 0,
    "cell_size_check": 1,
    "journal_mode": "delete",
    "synchronous": 3,
    "fullfsync": 1,
}


class _Driver(Protocol):
    """The connection of the standard library's sqlite3, as far as it is used here."""

    isolation_level: str | None

    def execute(self, statement: str) -> _Rows: ...


class _Rows(Protocol):
    def fetchone(self) -> tuple[object, ...] | None: ...


def make_engine(address: str) -> Engine:
    """Return an engine for the address; connects only when it is used."""
    if not is_file(address):
        return _server_engine(url(address))
    engine = create_engine(url(address))
    event.listen(engine, "connect", _settings)
    event.listen(engine, "begin", _begin)
    return engine


def looking_engine(address: str) -> Engine:
    """Return an engine for a file that is only looked at, damaged as it may be.

    `immutable` leaves locks and an unfinished journal alone: nothing of the file is touched.
    """
    found = url(address, "ro").update_query_dict({"immutable": "1"})
    engine = create_engine(found)
    event.listen(engine, "connect", _only_looking)
    event.listen(engine, "begin", _begin)
    return engine


def _server_engine(address: URL) -> Engine:
    try:
        engine = create_engine(address)
    except ModuleNotFoundError as error:
        raise StoreError(
            "PostgreSQL needs one more package",
            where="--store",
            remedy="Install it: pip install 'kitwright[postgres]'",
        ) from error
    _ask_after_rest(engine)
    return engine


def _ask_after_rest(engine: Engine) -> None:
    """Ask the server whether it is still there where a connection has rested a while.

    Asking each time would be one more round trip for every act and question. An act whose
    connection breaks meanwhile is done again.
    """

    def laid_down(_driver: object, record: ConnectionPoolEntry) -> None:
        record.info[_SINCE] = monotonic()

    def taken_up(driver: DBAPIConnection, record: ConnectionPoolEntry, _proxy: object) -> None:
        if monotonic() - record.info.get(_SINCE, monotonic()) < REST:
            return
        try:
            engine.dialect.do_ping(driver)
        except engine.dialect.loaded_dbapi.Error as error:
            raise DisconnectionError from error  # the pool connects anew

    event.listen(engine, "checkin", laid_down)
    event.listen(engine, "checkout", taken_up)


def _settings(driver: _Driver, _record: object) -> None:
    driver.isolation_level = None  # the driver must never begin by itself
    for name, value in PRAGMAS.items():
        driver.execute(f"PRAGMA {name}={value}")
        row = driver.execute(f"PRAGMA {name}").fetchone()
        if row is None or str(row[0]) != str(value):
            raise StoreError(
                f"this SQLite library did not take the setting {name}={value}",
                remedy="Use a Python with a newer SQLite library.",
            )


def _only_looking(driver: _Driver, _record: object) -> None:
    driver.isolation_level = None
    for name in ("query_only=1", "trusted_schema=0"):
        driver.execute(f"PRAGMA {name}")


def _begin(connection: Connection) -> None:
    how = connection.get_execution_options().get("begin", "IMMEDIATE")
    connection.exec_driver_sql(f"BEGIN {how}")
