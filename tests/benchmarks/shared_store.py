"""The same jobs on PostgreSQL and on SQLite: `python -m tests.benchmarks.shared_store`.

Both with their full durability, both through the same jobs, and the answers must be the same. The
processor time is that of this process and, on PostgreSQL, of the server's processes too.
"""

from __future__ import annotations

import sys
import tempfile
from dataclasses import replace
from itertools import count
from pathlib import Path
from typing import TYPE_CHECKING

from inventory.jobs.bench.looking_up import ready, short, where
from inventory.jobs.bench.scanning import Answer, ScanSession
from inventory.jobs.bench.undoing import history
from inventory.jobs.record.backup import EVERY
from inventory.store.ledger.movements import last_link
from inventory.store.ledger.stock import lying
from inventory.store.opening.database import begin_store
from inventory.store.record.checking import wrong_balances
from inventory.store.settings import set_setting
from tests.benchmarks.filled_kit import WORKSHOP, fill, home, part, slip_of, step
from tests.benchmarks.measure import Result, here, main, pair_of, ratio, together
from tests.benchmarks.servers import durable_server, on_server

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from inventory.jobs.acts import Bench

GOAL, ALARM = 4.0, 8.0
SCANS = 50
Job = tuple[str, "Callable[[Bench], object]"]


def measured(quick: bool) -> Iterator[Result]:  # noqa: FBT001
    """Measure filling, scanning and asking on both databases."""
    size = replace(WORKSHOP, movements=4_000 if quick else 20_000)
    with tempfile.TemporaryDirectory() as made, durable_server() as (server, pid):
        addresses = (str(Path(made) / "store.kitwright"), server.empty())
        benches: list[Bench] = []

        def begin(address: str) -> None:
            store = begin_store(address)
            with store.writing() as db:
                set_setting(db, EVERY, "0")
            benches.append(fill(store, "Tarn T2", "T2", size))

        filled = together(
            [here(lambda: begin(addresses[0])), on_server(pid, lambda: begin(addresses[1]))], 1, 0
        )
        what = f"filled with {size.movements:,} movements / on SQLite"
        yield ratio(what, pair_of(*filled), GOAL, ALARM)
        for name, job in jobs():
            answers: list[list[object]] = [[], []]
            pair = pair_of(
                *together(
                    [
                        here(lambda: answers[0].append(job(benches[0]))),  # noqa: B023
                        on_server(pid, lambda: answers[1].append(job(benches[1]))),  # noqa: B023
                    ],
                    3 if quick else 5,
                )
            )
            if answers[0] != answers[1]:
                raise RuntimeError(f"{name}: the two databases answer differently")
            yield ratio(f"{name} / on SQLite", pair, GOAL, ALARM)
        for bench in benches:
            bench.store.close()


def jobs() -> list[Job]:
    """Return the jobs, each with an answer that can be compared."""
    keys = {"SQLite": count(), "PostgreSQL": count()}

    def scans(bench: Bench) -> object:
        key = keys["SQLite" if bench.store.engine.dialect.name == "sqlite" else "PostgreSQL"]
        session = ScanSession(bench, lambda: slip_of(f"scan {next(key)}"))
        said = [session.scan(step(0, WORKSHOP)), session.scan(home(0, WORKSHOP).code)]
        said += [session.scan("1P" + part(0)) for _ in range(SCANS)]
        if said[-1].answer is not Answer.OK:
            raise RuntimeError(said[-1].words)
        return said

    def reconcile(bench: Bench) -> object:
        with bench.store.reading() as db:
            return wrong_balances(db, bench.kit), lying(db, bench.kit.id), last_link(db, 1)

    return [
        (f"{SCANS} scans, a commit each", scans),
        ("what is short, all steps", short),
        ("which steps are ready", ready),
        ("where a part lies", lambda bench: where(bench, part(7))),
        ("history of a part", lambda bench: history(bench, part(7))),
        ("every balance reconciled, last seal", reconcile),
    ]


if __name__ == "__main__":
    sys.exit(main(__doc__, measured))
