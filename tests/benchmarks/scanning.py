"""What a scan costs in a session, and how it grows: `python -m tests.benchmarks.scanning`.

The floor is a bare durable commit with the same settings: the part looked up, a movement inserted,
a balance changed, through sqlite3 alone. A scan is the whole of it: the line understood, the part
found in its bin, the step's needs held against what it has, the movement sealed and stored, the
answer in words. A balance and a reconciliation are held against one scan of all movements.
"""

from __future__ import annotations

import sqlite3
import sys
import tempfile
from dataclasses import replace
from itertools import count
from pathlib import Path
from typing import TYPE_CHECKING

from inventory.jobs.bench.scanning import Answer, ScanSession
from inventory.jobs.record.backup import EVERY
from inventory.store.opening.database import begin_store
from inventory.store.opening.engine import PRAGMAS
from inventory.store.record.checking import wrong_balances
from inventory.store.settings import set_setting
from tests.benchmarks.filled_kit import WORKSHOP, fill, home, part, slip_of, step
from tests.benchmarks.measure import (
    PYTHON,
    Result,
    Spent,
    here,
    installed,
    main,
    middle,
    pair_of,
    ratio,
    spawned,
    together,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from inventory.jobs.acts import Bench

SCANS = 300
EXTRA_MS = (1.0, 3.0)
"""What our part of a scan may take above the bare commit, in milliseconds of processor."""
GROWTH, BYTES, RECONCILE = (1.1, 1.5), (2.5, 4.0), (5.0, 20.0)
PROCESS = (20.0, 25.0)
_SCHEMA = """
CREATE TABLE part (id INTEGER PRIMARY KEY, code TEXT NOT NULL UNIQUE, on_hand INTEGER NOT NULL);
CREATE TABLE moved (id INTEGER PRIMARY KEY, part INTEGER NOT NULL, step INTEGER NOT NULL,
    quantity INTEGER NOT NULL, at TEXT NOT NULL, bin TEXT NOT NULL, reason TEXT NOT NULL);
CREATE INDEX moved_part ON moved (part);
"""
_RAW_SCAN = """
import sqlite3, sys
db = sqlite3.connect(sys.argv[1], isolation_level=None)
db.execute("PRAGMA synchronous=EXTRA")
db.execute("BEGIN IMMEDIATE")
(number,) = db.execute("SELECT id FROM part WHERE code = ?", (sys.argv[2],)).fetchone()
db.execute(
    "INSERT INTO moved (part, step, quantity, at, bin, reason) VALUES (?, 3, 1, ?, ?, ?)",
    (number, "2026-11-25T10:00:00Z", "B-001", "issue"),
)
db.execute("UPDATE part SET on_hand = on_hand - 1 WHERE id = ?", (number,))
db.execute("COMMIT")
"""
_INSERT = "INSERT INTO moved (part, step, quantity, at, bin, reason) VALUES (?, ?, ?, ?, ?, ?)"


def measured(quick: bool) -> Iterator[Result]:  # noqa: FBT001
    """Measure scans in a small and in a large ledger, the ledger's size, and reconciling it."""
    small, large = 10_000, 100_000 if quick else 1_000_000
    with tempfile.TemporaryDirectory() as made:
        folder = Path(made)
        benches = [stocked(folder, movements) for movements in (small, large)]
        bare = Bare(folder / "bare.db", large)
        rows = together(
            [bare.scan, *(scanner(bench) for bench in benches)], 100 if quick else SCANS, warm=20
        )
        floor, little, much = (middle(row) for row in rows)
        spread = pair_of(_thirds(rows[0]), _thirds(rows[0])).spread
        least = [min(each.cpu for each in row) * 1e3 for row in rows]
        for movements, one, quiet in ((small, little, least[1]), (large, much, least[2])):
            yield Result(
                what=f"one scan among {movements:,} movements, above floor",
                figure=(one.cpu - floor.cpu) * 1e3,
                goal=EXTRA_MS[0],
                alarm=EXTRA_MS[1],
                unit="ms",
                detail=f"{one.cpu * 1e3:.2f} ms ({one.wall * 1e3:.2f}) "
                f"against {floor.cpu * 1e3:.2f} ms ({floor.wall * 1e3:.2f}); "
                f"least disturbed {quiet - least[0]:.2f} ms above",
                spread=spread,
            )
        yield Result(
            what=f"one scan, {large // small} times the movements",
            figure=much.cpu / little.cpu,
            goal=GROWTH[0],
            alarm=GROWTH[1],
            spread=spread,
        )
        yield _bytes_each(folder, bare, large)
        yield _reconciling(benches[1], bare)
        for bench in benches:
            bench.store.close()
        yield _one_issue_alone(folder, small, 5 if quick else 11)


def _thirds(rounds: Sequence[Spent]) -> list[Spent]:
    """Return the medians of three parts of the run: single commits are too short to compare."""
    third = len(rounds) // 3
    return [middle(rounds[start : start + third]) for start in (0, third, 2 * third)]


def stocked(folder: Path, movements: int) -> Bench:
    """Return a kit with so many movements; its backups by itself are off, since they are acts."""
    store = begin_store(str(folder / f"{movements}.kitwright"))
    with store.writing() as db:
        set_setting(db, EVERY, "0")
    return fill(store, "Tarn T2", "T2", replace(WORKSHOP, movements=movements, to_a_slip=10_000))


def scanner(bench: Bench) -> Callable[[], Spent]:
    """Return how to scan the next part to a step that stays set."""
    keys = count()
    session = ScanSession(bench, lambda: slip_of(f"scan {next(keys)}"))
    session.scan(step(0, WORKSHOP))
    wanted = [n % WORKSHOP.parts for n in range(0, WORKSHOP.needs, WORKSHOP.steps)]
    turn = count()

    def scan() -> Spent:
        number = wanted[next(turn) % len(wanted)]
        text = "1P" + part(number)
        answers = []
        session.at = replace(session.at, bin=home(number, WORKSHOP))
        spent = here(lambda: answers.append(session.scan(text)))()
        if answers[0].answer is not Answer.OK:
            raise RuntimeError(f"{text}: {answers[0].words} {answers[0].remedy}")
        return spent

    return scan


class Bare:
    """The floor: three statements and a durable commit on a file of its own."""

    def __init__(self, path: Path, movements: int) -> None:
        self.path = path
        self.db = sqlite3.connect(path, isolation_level=None)
        for name, value in PRAGMAS.items():
            self.db.execute(f"PRAGMA {name}={value}")
        self.db.executescript(_SCHEMA)
        codes = [part(number) for number in range(WORKSHOP.parts)]
        self.db.execute("BEGIN")
        self.db.executemany(
            "INSERT INTO part (code, on_hand) VALUES (?, 1000000)", [(code,) for code in codes]
        )
        self.db.executemany(_INSERT, (_row(n % WORKSHOP.parts + 1) for n in range(movements)))
        self.db.execute("COMMIT")
        self.size = path.stat().st_size
        self._turn = count()

    def scan(self) -> Spent:
        return here(self._scan)()

    def _scan(self) -> None:
        code = part(next(self._turn) * 7919 % WORKSHOP.parts)
        run = self.db.execute
        run("BEGIN IMMEDIATE")
        (number,) = run("SELECT id FROM part WHERE code = ?", (code,)).fetchone()
        run(_INSERT, _row(number))
        run("UPDATE part SET on_hand = on_hand - 1 WHERE id = ?", (number,))
        run("COMMIT")

    def sum_all(self) -> None:
        self.db.execute("SELECT sum(quantity) FROM moved").fetchone()


def _row(number: int) -> tuple[object, ...]:
    return (number, 3, 1, "2026-11-25T10:00:00Z", "B-001", "issue")


def _bytes_each(folder: Path, bare: Bare, movements: int) -> Result:
    ours = (folder / f"{movements}.kitwright").stat().st_size / movements
    floor = bare.size / movements
    return Result(
        what="bytes a movement, all tables and indexes",
        figure=ours / floor,
        goal=BYTES[0],
        alarm=BYTES[1],
        detail=f"{ours:.0f} B against {floor:.0f} B",
    )


def _one_issue_alone(folder: Path, movements: int, rounds: int) -> Result:
    """Hold a command that issues one piece against a process that only commits through sqlite3."""
    installed(folder / "installed")
    store, begun = (
        str(folder / f"{movements}.kitwright"),
        "from inventory.__main__ import main; main()",
    )
    issue = ["issue", part(0), "1", "--step", step(0, WORKSHOP), "--from", home(0, WORKSHOP).code]
    pair = pair_of(
        *together(
            [
                spawned([PYTHON, "-c", _RAW_SCAN, str(folder / "bare.db"), part(0)]),
                spawned(
                    [PYTHON, "-c", begun, *issue, "--store", store],
                    PYTHONPATH=str(folder / "installed"),
                ),
            ],
            rounds,
        )
    )
    return ratio("one issue as a process / raw sqlite3", pair, *PROCESS)


def _reconciling(bench: Bench, bare: Bare) -> Result:
    """Hold every balance against the sum of its movements."""

    def reconcile() -> None:
        with bench.store.reading() as db:
            if wrong_balances(db, bench.kit):
                raise RuntimeError("a balance isn't the sum of its movements")

    pair = pair_of(*together([here(bare.sum_all), here(reconcile)], rounds=3))
    return ratio("every balance reconciled / one scan of movements", pair, *RECONCILE)


if __name__ == "__main__":
    sys.exit(main(__doc__, measured))
