"""A store of a newer program is refused, and left as it is."""

from __future__ import annotations

import sqlite3
from contextlib import closing, suppress
from typing import TYPE_CHECKING

import pytest

from inventory.core.errors import StoreError
from inventory.jobs.kits import begin_kit
from inventory.store.opening import database
from inventory.store.opening.database import SCHEMA, open_store
from tests.conftest import NOW
from tests.store.test_opening import digest

if TYPE_CHECKING:
    from pathlib import Path


def is_left_untouched(folder: Path, address: str) -> bool:
    """Make a store one of a newer program, try to begin a kit in it, and say whether it changed."""
    with closing(sqlite3.connect(address)) as db:
        db.execute(f"PRAGMA user_version = {SCHEMA + 1}")
    before = digest(folder)
    with suppress(StoreError), closing(open_store(address)) as store:
        begin_kit(store, "Tarn T2", "T2", NOW)
    return digest(folder) == before


def test_a_newer_store_is_left_untouched(tmp_path: Path, sqlite_address: str) -> None:
    assert is_left_untouched(tmp_path, sqlite_address)
    with pytest.raises(StoreError, match=rf"schema {SCHEMA + 1}, this one knows {SCHEMA}"):
        open_store(sqlite_address)


def test_without_its_check_a_newer_store_would_be_written_to(
    tmp_path: Path, sqlite_address: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The control: it is the comparison of schemas that keeps the program out."""
    monkeypatch.setattr(database, "_check_schema", lambda *_: None)
    assert not is_left_untouched(tmp_path, sqlite_address)


def test_a_newer_store_on_the_server_is_left_untouched(
    postgresql_address: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(database, "SCHEMA", SCHEMA - 1)
    with pytest.raises(StoreError, match="newer Kitwright"):
        open_store(postgresql_address)
