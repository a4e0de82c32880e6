"""A block inside a transaction that is taken back alone."""

from __future__ import annotations

import sqlite3
from typing import TYPE_CHECKING

import pytest
from sqlalchemy.exc import DBAPIError

from inventory.store.ledger.quick import all_or_nothing, hand_over
from inventory.store.settings import set_setting, setting

if TYPE_CHECKING:
    from inventory.jobs.acts import Bench
    from inventory.store.opening.database import Connection


def fail_in_a_block(db: Connection) -> None:
    with all_or_nothing(db):
        set_setting(db, "inner", "taken back")
        raise LookupError


def fail_without_a_transaction(bench: Bench) -> None:
    with bench.store.writing() as db, all_or_nothing(db):
        set_setting(db, "lost", "1")
        hand_over(db, "ROLLBACK")  # as SQLite does by itself where the disk is full
        raise sqlite3.OperationalError("disk is full")


def test_failed_block_leaves_nothing_and_the_rest_is_stored(bench: Bench) -> None:
    with bench.store.writing() as db:
        set_setting(db, "before", "1")
        with all_or_nothing(db):
            set_setting(db, "kept", "2")
            with pytest.raises(LookupError):
                fail_in_a_block(db)
        set_setting(db, "after", "3")
    with bench.store.reading() as db:
        assert [setting(db, name) for name in ("before", "kept", "after")] == ["1", "2", "3"]
        assert setting(db, "inner") == ""


def test_error_is_said_where_the_whole_transaction_is_gone(sqlite_bench: Bench) -> None:
    with pytest.raises(sqlite3.OperationalError, match="disk"):
        fail_without_a_transaction(sqlite_bench)


def test_statement_that_fails_is_an_error_of_the_database(sqlite_bench: Bench) -> None:
    with sqlite_bench.store.reading() as db, pytest.raises(DBAPIError, match="no such table"):
        hand_over(db, "SELECT 1 FROM nowhere")
