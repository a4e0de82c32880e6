"""Many full-size kits on PostgreSQL: `python -m tests.benchmarks.scale [--seconds 600]`.

One kit of 15,000 plan lines and 50,000 movements is recorded through the program, then copied
under other numbers inside the server, through the same triggers, until the time is up. (The seals
stay right: a kit's number isn't in them.) Then every question of a kit is asked once more, and the
server is asked how it would find the rows: none may read the ledger of all kits from end to end.
"""

from __future__ import annotations

import argparse
import json
import sys
import time
from contextlib import contextmanager
from dataclasses import dataclass, replace
from itertools import count
from pathlib import Path
from typing import TYPE_CHECKING, Any

from sqlalchemy import event, text

from inventory.jobs.bench.looking_up import pick, ready, short, where
from inventory.jobs.bench.scanning import Answer, ScanSession
from inventory.jobs.bench.undoing import history
from inventory.jobs.record.backup import EVERY
from inventory.store.kits import all_kits
from inventory.store.opening.database import begin_store
from inventory.store.settings import set_setting
from inventory.store.tables.whole import metadata
from tests.benchmarks.filled_kit import Size, fill, home, part, slip_of, step
from tests.benchmarks.measure import Result, line, middle, pair_of, plain
from tests.benchmarks.servers import durable_server, on_server

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

    from sqlalchemy import Connection

    from inventory.jobs.acts import Bench
    from inventory.store.kits import Kit
    from inventory.store.opening.database import Store
    from tests.benchmarks.measure import Spent

FULL = Size(parts=5000, bins=400, steps=500, needs=15_000, movements=50_000, to_a_slip=25)
QUICK = replace(FULL, needs=1500, movements=5000, parts=1000)
LEDGER = frozenset({"movement", "slip", "balance"})
TIMES = 5
WANTED = 10_000
"""Kits of the store that is extrapolated to."""
SAME = (1.5, 3.0)
"""A kit's questions may take so many times as long beside many other kits."""


@dataclass(frozen=True, slots=True)
class Asked:
    """One statement that a question made, and the tables it reads from end to end."""

    question: str
    statement: str
    end_to_end: frozenset[str]


def measured(quick: bool, seconds: float = 60.0) -> Iterator[Result]:  # noqa: FBT001
    """Fill a server for so many seconds and measure a kit's questions before and after."""
    size = QUICK if quick else FULL
    with durable_server() as (server, pid):
        store = begin_store(server.empty())
        with store.writing() as db:
            set_setting(db, EVERY, "0")
        begun = time.monotonic()
        bench = fill(store, "Kit 1", "01", size)
        first = time.monotonic() - begun
        _analyze(store)
        alone = asked_often(pid, bench, size)
        kits, each = copies(store, bench.kit, seconds if not quick else seconds / 6)
        _analyze(store)
        beside = asked_often(pid, bench, size)
        for name, spent in beside.items():
            yield Result(
                what=f"{name}, among {kits} kits / alone",
                figure=spent.cpu / alone[name].cpu,
                goal=SAME[0],
                alarm=SAME[1],
                detail=pair_of([alone[name]], [spent]).words,
            )
        asked = list(plans(store, bench, size))
        yield _never_end_to_end(asked)
        yield _size(store, kits, size, first, each)
        store.close()


def asked_often(pid: int, bench: Bench, size: Size) -> dict[str, Spent]:
    """Ask each question in several rounds of some, and return what one takes here and there.

    The server's processor time comes in hundredths of a second, so that one alone says little.
    """
    rounds = {name: on_server(pid, _repeated(ask)) for name, ask in questions(bench, size).items()}
    return {name: middle([way().each(TIMES) for _ in range(3)]) for name, way in rounds.items()}


def _repeated(ask: Callable[[], object]) -> Callable[[], None]:
    def ask_times() -> None:
        for _ in range(TIMES):
            ask()

    return ask_times


def questions(bench: Bench, size: Size) -> dict[str, Callable[[], object]]:
    """Return each question of a kit, asked once already so that nothing is put together anew."""
    keys = count()
    run = str(time.monotonic_ns())

    def scan() -> None:
        session = ScanSession(bench, lambda: slip_of(f"scan {run} {next(keys)}"))
        session.scan(step(0, size))
        session.scan(home(0, size).code)
        said = session.scan("1P" + part(0))
        if said.answer is not Answer.OK:
            raise RuntimeError(said.words)

    asked: dict[str, Callable[[], object]] = {
        "a scan": scan,
        "where": lambda: where(bench, part(7)),
        "short": lambda: short(bench),
        "ready": lambda: ready(bench),
        "pick list": lambda: pick(bench, step(3, size)),
        "history of a part": lambda: history(bench, part(7)),
    }
    for ask in asked.values():
        ask()
    return asked


def copies(store: Store, kit: Kit, seconds: float) -> tuple[int, float]:
    """Copy the kit under new numbers until the time is up; return kits and seconds a copy."""
    begun = time.monotonic()
    number = kit.id
    while number == kit.id or time.monotonic() - begun < seconds:
        number += 1
        with store.writing() as db:
            copy(db, kit, number)
    return number, (time.monotonic() - begun) / (number - kit.id)


def copy(db: Connection, kit: Kit, number: int) -> None:
    """Copy every row of a kit under another number, through the triggers of each table."""
    db.execute(
        text("INSERT INTO kit (id, code, name, created_at) VALUES (:id, :code, :name, :at)"),
        {"id": number, "code": f"{number:02X}"[-2:], "name": f"Kit {number}", "at": kit.created_at},
    )
    for table in metadata.sorted_tables:
        if "kit" not in table.c or table.name == "balance":  # the ledger's trigger makes balances
            continue
        names = [f'"{column.name}"' for column in table.columns if column.name != "kit"]
        order = ", ".join(f'"{column.name}"' for column in table.primary_key)
        columns = ", ".join(names)
        statement = (
            f'INSERT INTO "{table.name}" (kit, {columns}) SELECT :kit, {columns} '  # noqa: S608
            f'FROM "{table.name}" WHERE kit = :from ORDER BY {order}'
        )
        db.execute(text(statement), {"kit": number, "from": kit.id})


def _analyze(store: Store) -> None:
    with store.engine.connect().execution_options(isolation_level="AUTOCOMMIT") as db:
        db.execute(text("VACUUM ANALYZE"))


def plans(store: Store, bench: Bench, size: Size) -> Iterator[Asked]:
    """Return every statement of every question with what the server would read end to end."""
    for name, ask in questions(bench, size).items():
        with listened(store) as heard:
            ask()
        with store.engine.connect() as db:
            for statement, parameters in heard.items():
                if statement.split()[0] == "SELECT" and "advisory" not in statement:
                    yield Asked(name, statement, read_whole(db, statement, parameters))


@contextmanager
def listened(store: Store) -> Iterator[dict[str, Any]]:
    """Collect the statements that are sent meanwhile, each once, with its parameters."""
    heard: dict[str, Any] = {}

    def listen(*sent: Any) -> None:  # noqa: ANN401 - as SQLAlchemy calls it
        heard.setdefault(sent[2], sent[3])

    event.listen(store.engine, "before_cursor_execute", listen)
    try:
        yield heard
    finally:
        event.remove(store.engine, "before_cursor_execute", listen)


def read_whole(db: Connection, statement: str, parameters: Any) -> frozenset[str]:  # noqa: ANN401
    """Return the tables that a statement would read from end to end."""
    plan = db.exec_driver_sql(f"EXPLAIN (FORMAT JSON) {statement}", parameters).scalar_one()
    found: set[str] = set()
    left: list[Mapping[str, Any]] = [plan[0]["Plan"]]
    while left:
        node = left.pop()
        left += node.get("Plans", [])
        if node["Node Type"] == "Seq Scan":
            found.add(node["Relation Name"])
    return frozenset(found)


def _never_end_to_end(asked: list[Asked]) -> Result:
    bad = [each for each in asked if each.end_to_end & LEDGER]
    other = sorted({table for each in asked for table in each.end_to_end - LEDGER})
    for each in bad:
        print(f"  reads {', '.join(sorted(each.end_to_end))}: {each.question}: {each.statement}")
    return Result(
        what="statements that read the whole ledger",
        figure=len(bad),
        goal=0,
        alarm=0,
        unit="",
        detail=f"of {len(asked)}; other tables read whole: {', '.join(other) or 'none'}",
    )


def _size(store: Store, kits: int, size: Size, first: float, each: float) -> Result:
    with store.reading() as db:
        taken = db.execute(text("SELECT pg_database_size(current_database())")).scalar_one()
        there = len(all_kits(db))
    a_kit = taken / kits
    return Result(
        what=f"{WANTED:,} kits, extrapolated from {there}",
        figure=a_kit * WANTED / 1e12,
        goal=1.0,
        alarm=2.0,
        unit="TB",
        detail=f"{a_kit / 1e6:.1f} MB a kit of {size.needs:,} lines and {size.movements:,} "
        f"movements; recorded in {first:.0f} s, copied in {each:.1f} s "
        f"(so {each * WANTED / 3600:.0f} h for all)",
    )


def main() -> int:
    """Print the table; return 1 where a figure alarms."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--quick", action="store_true", help="a tenth of a kit, a sixth of it")
    parser.add_argument("--seconds", type=float, default=60.0, help="how long kits are copied")
    parser.add_argument("--json", type=Path, metavar="FILE")
    asked = parser.parse_args()
    rows = []
    for result in measured(asked.quick, asked.seconds):
        rows.append(plain(result))
        print(line(rows[-1]), flush=True)
    if asked.json:
        asked.json.write_text(json.dumps(rows, indent=1) + "\n", encoding="utf-8")
    return int(any(row["verdict"] == "ALARM" for row in rows))


if __name__ == "__main__":
    sys.exit(main())
