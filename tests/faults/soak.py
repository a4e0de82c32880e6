"""Many people at once for a long time: memory stays flat, no update is lost, waits are printed.

    python -m tests.faults.soak [--minutes 30] [--clients 8] [--store postgresql://...]

Each client is a process of its own that issues, takes back, holds, releases, recounts, looks up
and undoes. One line of JSON at the end: acts by kind, the 50th and 99th of 100 waits in
milliseconds, memory of the clients after warming up and at the end in kilobytes, and what verifying
found.
"""

from __future__ import annotations

import argparse
import json
import os
import random
import statistics
import sys
import tempfile
import time
import uuid
from collections import Counter
from contextlib import closing
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

from inventory.core.errors import InventoryError
from inventory.core.places import Place, PlaceKind
from inventory.jobs.acts import Bench
from inventory.jobs.bench import issuing, looking_up, putting_away, undoing
from inventory.jobs.bench.finding_items import Asked, Taking
from inventory.jobs.bench.putting_away import Putting
from inventory.jobs.kits import choose_kit
from inventory.jobs.record.verifying import verify
from inventory.jobs.stores import open_store
from inventory.store.ledger.stock import lying
from tests.faults.workshop import BIN, PART, PLENTY, STEP, make_workshop, slip_of

if TYPE_CHECKING:
    from collections.abc import Callable

    from inventory.core.record.slips import Slip

AT = Place(PlaceKind.BIN, BIN)
IN_STEP = Place(PlaceKind.STEP, STEP)
HELD = Place(PlaceKind.HOLD, "HOLD")
_WARM = 0.2
"""Share of the time after which a client's memory should grow no more."""


def new_slip() -> Slip:
    return replace(slip_of(uuid.uuid4().hex), recorded_at=datetime.now(UTC), note="soak")


def taking(origin: Place, pieces: int = 1) -> Taking:
    return Taking(Asked(part=PART), pieces, origin)


ACTS: dict[str, Callable[[Bench], object]] = {
    "issue": lambda bench: issuing.issue(
        bench, issuing.Issue(asked=Asked(part=PART), pieces=1, step=STEP, origin=AT), new_slip()
    ),
    "take back": lambda bench: issuing.take_back(bench, taking(IN_STEP), BIN, new_slip()),
    "hold": lambda bench: putting_away.hold(bench, taking(AT), new_slip()),
    "release": lambda bench: putting_away.release(bench, Putting(taking(HELD), BIN), new_slip()),
    "undo": lambda bench: undoing.undo(bench, new_slip()),
    "where": lambda bench: looking_up.where(bench, PART),
}
SHARES = {"issue": 10, "take back": 4, "hold": 2, "release": 2, "undo": 1, "where": 2}


def memory() -> int:
    """Return how many kilobytes this process holds."""
    pages = int(Path("/proc/self/statm").read_text(encoding="ascii").split()[1])
    return pages * os.sysconf("SC_PAGE_SIZE") // 1024


def client(address: str, seconds: float, seed: int) -> dict[str, Any]:
    """Act until the time is over; return the figures of this client."""
    chance = random.Random(seed)  # noqa: S311 - moments, not secrets
    names = chance.choices(list(SHARES), list(SHARES.values()), k=997)
    done: Counter[str] = Counter()
    waits: list[float] = []
    warm = 0
    began = time.monotonic()
    with closing(open_store(address)) as store:
        bench = Bench(store, choose_kit(store, ""))
        while (passed := time.monotonic() - began) < seconds:
            name = names[len(waits) % len(names)]
            at = time.perf_counter()
            try:
                ACTS[name](bench)
                done[name] += 1
            except InventoryError:
                done["refused"] += 1
            waits.append(time.perf_counter() - at)
            if not warm and passed > _WARM * seconds:
                warm = memory()
    return {"done": done, "waits": waits, "warm": warm, "end": memory()}


def soaked(address: str, seconds: float, clients: int) -> dict[str, Any]:
    """Let the clients act at once and return the figures of all."""
    pipes = []
    for seed in range(clients):
        reading, writing = os.pipe()
        if not os.fork():
            os.close(reading)
            with os.fdopen(writing, "w") as out:
                json.dump(client(address, seconds, seed), out)
            os._exit(0)
        os.close(writing)
        pipes.append(reading)
    told: list[dict[str, Any]] = []
    for reading in pipes:
        with os.fdopen(reading) as text:
            told.append(json.load(text))
        os.wait()
    waits = sorted(wait for each in told for wait in each["waits"])
    return {
        "acts": dict(sum((Counter(each["done"]) for each in told), Counter())),
        "p50_ms": round(statistics.median(waits) * 1000, 1),
        "p99_ms": round(waits[int(len(waits) * 0.99)] * 1000, 1),
        "memory_kb": [(each["warm"], each["end"]) for each in told],
        **_left(address),
    }


def _left(address: str) -> dict[str, Any]:
    """Return what verifying finds, and whether every piece is still there."""
    with closing(open_store(address)) as store:
        problems = [str(each) for each in verify(store).problems]
        with store.reading() as db:
            pieces = sum(lies.quantity for lies in lying(db, 1) if lies.quantity > 0)
    return {"pieces_lost": PLENTY - pieces, "problems": problems}


def main() -> None:
    asked = argparse.ArgumentParser()
    asked.add_argument("--minutes", type=float, default=30)
    asked.add_argument("--clients", type=int, default=8)
    asked.add_argument("--store", default="")
    given = asked.parse_args()
    with tempfile.TemporaryDirectory(prefix="kitwright-soak-") as place:
        address = given.store or str(Path(place) / "kits.kitwright")
        make_workshop(address)
        figures = soaked(address, given.minutes * 60, given.clients)
    sys.stdout.write(json.dumps(figures) + "\n")


if __name__ == "__main__":
    main()
