"""The same schema split by kit: partitions of one server stand in for many machines.

What is proved: the migrations make every table of a kit as a hash partition by its kit; every
question and act of a kit names the kit, so that PostgreSQL plans it on that kit's partitions
alone; no key crosses kits (`test_migrations.py`). What isn't tried: an engine that spreads the
partitions over machines.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any, Self

import pytest
from alembic import op
from sqlalchemy import event

from inventory.jobs.acts import Bench
from inventory.jobs.kits import begin_kit
from inventory.jobs.record.verifying import verify
from inventory.store.migrations import sql
from inventory.store.opening.database import begin_store
from tests.conftest import NOW
from tests.kits_apart import OF_KITS, without_kit
from tests.store.acts_of_a_day import act_and_ask

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sqlalchemy import Connection

    from inventory.store.opening.database import Store
    from tests.postgres import Server

PARTS = 8


def create_split(statement: str) -> None:
    """Run a CREATE statement of the migrations; a kit's table becomes partitions by kit."""
    server = statement.replace("INTEGER", "BIGINT").replace("BLOB", "BYTEA")
    head, _, _ = server.strip().partition("(")
    table = head.split()[-1].strip('"')
    if not head.startswith("CREATE TABLE") or table not in OF_KITS:
        op.execute(server)
        return
    op.execute(f"{server} PARTITION BY HASH (kit)")
    for rest in range(PARTS):
        op.execute(
            f'CREATE TABLE "{table}_p{rest}" PARTITION OF "{table}" '
            f"FOR VALUES WITH (MODULUS {PARTS}, REMAINDER {rest})"
        )


@pytest.fixture(scope="module")
def split_store(postgresql: Server) -> Iterator[Store]:
    address = postgresql.empty()
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(sql, "create", create_split)
        store = begin_store(address)
    yield store
    store.close()
    postgresql.drop(address)


class Asked:
    """Every statement that goes to the server while this is open, with its values."""

    def __init__(self, store: Store) -> None:
        self.statements: dict[str, Any] = {}
        self._engine = store.engine

    def __enter__(self) -> Self:
        event.listen(self._engine, "before_cursor_execute", self._take)
        return self

    def __exit__(self, *_: object) -> None:
        event.remove(self._engine, "before_cursor_execute", self._take)

    def _take(self, *given: Any) -> None:  # noqa: ANN401 - the event's own arguments
        _, _, statement, values, _, many = given
        self.statements[statement] = values[0] if many else values


def tables_scanned(plan: dict[str, Any]) -> set[str]:
    """Return the tables that a plan of EXPLAIN (FORMAT JSON) reads or writes."""
    here = {plan["Relation Name"]} if "Relation Name" in plan else set()
    return here.union(*(tables_scanned(each) for each in plan.get("Plans", ())))


def planned(db: Connection, statement: str, values: Any) -> dict[str, Any]:  # noqa: ANN401
    explained = db.exec_driver_sql(f"EXPLAIN (FORMAT JSON) {statement}", values).scalar_one()
    found = json.loads(explained) if isinstance(explained, str) else explained
    plan: dict[str, Any] = found[0]["Plan"]
    return plan


def partitions(tables: set[str]) -> set[str]:
    """Return which eighths are touched: `_p3` of every table is the same kits' part."""
    return {name.rpartition("_p")[2] for name in tables if name.rpartition("_p")[0] in OF_KITS}


def test_every_question_and_act_of_a_kit_stays_on_its_partitions(split_store: Store) -> None:
    bench = Bench(split_store, begin_kit(split_store, "Tarn T2", "T2", NOW))
    with Asked(split_store) as asked:
        act_and_ask(bench)
    with split_store.engine.connect() as db:
        touched = {
            statement: partitions(tables_scanned(planned(db, statement, values)))
            for statement, values in asked.statements.items()
            if statement.startswith(("SELECT", "INSERT", "UPDATE", "DELETE"))
            and "pg_advisory" not in statement
        }
    assert len(touched) > 40
    assert {statement for statement, eighths in touched.items() if len(eighths) > 1} == set()


@pytest.mark.parametrize(
    ("statement", "tables"),
    [
        ("SELECT slip.id FROM slip WHERE slip.kit = ?", set()),
        ("SELECT slip.id FROM slip WHERE slip.key = ?", {"slip"}),
        ('SELECT 1 FROM "plan" JOIN step ON step.plan = "plan".id WHERE "plan".kit = ?', {"step"}),
        ("SELECT 1 FROM place AS origin, item WHERE origin.kit = 1", {"item"}),
        ("SELECT 1 FROM place AS origin WHERE place.kit = 1", {"place"}),
        ("UPDATE place SET shelf=? WHERE place.code = ?", {"place"}),
        ("INSERT INTO part (id, key) VALUES (?, ?)", {"part"}),
        ('INSERT INTO "count" (kit, id) VALUES (?, ?)', set()),
        ("SELECT kit.id FROM kit ORDER BY kit.id", set()),
    ],
)
def test_statements_across_kits_are_found(statement: str, tables: set[str]) -> None:
    assert without_kit(statement) == tables


def test_a_question_without_the_kit_would_be_found(split_store: Store) -> None:
    """The control: such a statement does touch every partition."""
    with split_store.engine.connect() as db:
        plan = planned(db, "SELECT * FROM movement WHERE slip = %(slip)s", {"slip": 1})
    assert len(partitions(tables_scanned(plan))) == PARTS


def test_a_split_store_guards_and_verifies_like_any_other(split_store: Store) -> None:
    bench = Bench(split_store, begin_kit(split_store, "Tern", "TE", NOW))
    act_and_ask(bench, devices=False)
    wrong = {check.looked_at for check in verify(split_store).checks if check.problems}
    assert wrong <= {"photographs"}  # no picture was kept, only its row
    with split_store.engine.connect() as db, pytest.raises(Exception, match="append only"):
        db.exec_driver_sql("UPDATE movement SET quantity = 1 WHERE kit = 1")
    with split_store.engine.connect() as db, pytest.raises(Exception, match="append only"):
        db.exec_driver_sql("TRUNCATE movement CASCADE")
