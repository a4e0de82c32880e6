"""What a scan costs over the network: `python -m tests.benchmarks.web`.

The floor of one scan is a request to Starlette without a database plus a bare durable commit with
the store's own settings, by the clock: client, server and disk work one after another. The floor
of several phones at once is as many threads that do bare durable commits behind one lock. The
floor of start and memory is a server with Starlette, uvicorn and SQLAlchemy loaded.
"""

from __future__ import annotations

import asyncio
import re
import socket
import statistics
import subprocess
import sys
import tempfile
import threading
import time
from contextlib import contextmanager
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from http.client import HTTPConnection
from pathlib import Path
from typing import TYPE_CHECKING

from inventory.jobs.devices import invitation, pair
from inventory.store.opening.database import begin_store
from inventory.web.guard import COOKIE
from tests.benchmarks.filled_kit import WORKSHOP, fill
from tests.benchmarks.measure import PYTHON, ROUNDS, Result, main
from tests.benchmarks.scanning import Bare
from tests.benchmarks.web_load import Echoes, Scans, load

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence
    from contextlib import AbstractContextManager

ONE, MANY, START = (6.0, 9.0), (3.0, 5.0), (1.5, 2.0)
FIRST_PAGE_KB = (150.0, 200.0)
SECONDS = 2.0
WAITING_ROUNDS = 7
"""Of the slowest hundredth: a thread that misses its turn at the lock spoils a round of floors."""
ANY_QUESTION = b"GET /manifest.webmanifest HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\n\r\n"


def measured(quick: bool) -> Iterator[Result]:  # noqa: FBT001
    """Measure one scan, scans of 4 and of 16 phones, start, memory, and the first page."""
    seconds = SECONDS / 4 if quick else SECONDS
    with tempfile.TemporaryDirectory() as made:
        folder = Path(made)
        address, secret = stocked(folder)
        bare = Bare(folder / "bare.db", 10_000)
        with ours(address) as served, floor("bare") as web:
            scans = Scans(served.port, secret)
            scans.begin()
            yield one_scan(bare, web, scans, seconds)
            for clients in (4, 16):
                yield at_once(folder, scans, clients, seconds)
            yield first_page(served, secret)
        yield from started(address, 3 if quick else ROUNDS)


def stocked(folder: Path) -> tuple[str, str]:
    """Return a stocked kit's store and the secret of a phone that is paired with it."""
    address = str(folder / "store.kitwright")
    now = datetime.now(UTC)
    store = begin_store(address)
    fill(store, "Tarn T2", "T2", replace(WORKSHOP, movements=10_000))
    secret = pair(store, invitation(store, now), "phone", "Ana", now).secret
    store.close()
    return address, secret


@dataclass(frozen=True)
class Server:
    """A server's process and where it answers."""

    running: subprocess.Popen[str]
    port: int
    seconds: float
    """From its start until it accepted a connection."""

    @property
    def memory(self) -> float:
        """Resident memory in MiB."""
        status = Path(f"/proc/{self.running.pid}/status").read_text()
        found = re.search(r"VmRSS:\s+(\d+)", status)
        return int(found[1]) / 1024 if found else 0.0


@contextmanager
def server(*command: str, port: int) -> Iterator[Server]:
    """Run a server until the block ends."""
    begun = time.perf_counter()
    with subprocess.Popen(
        [PYTHON, "-m", *command],
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        text=True,
    ) as running:
        while not answers(port):
            if running.poll() is not None or time.perf_counter() - begun > 60:
                raise RuntimeError(f"{' '.join(command)} doesn't answer")
            time.sleep(0.002)
        yield Server(running, port, time.perf_counter() - begun)
        running.terminate()


def answers(port: int) -> bool:
    """Say whether a request is answered, whatever the answer."""
    try:
        with socket.create_connection(("127.0.0.1", port), 1) as asked:
            asked.sendall(ANY_QUESTION)
            return bool(asked.recv(12))
    except OSError:
        return False


def ours(address: str) -> AbstractContextManager[Server]:
    """Serve the store."""
    port = free_port()
    return server("inventory", "--store", address, "serve", "--port", str(port), port=port)


def floor(kind: str) -> AbstractContextManager[Server]:
    """Serve without our program."""
    port = free_port()
    return server("tests.benchmarks.web_floor", kind, str(port), port=port)


def free_port() -> int:
    """Return a port that nobody uses."""
    with socket.create_server(("127.0.0.1", 0)) as taken:
        return int(taken.getsockname()[1])


def one_scan(bare: Bare, web: Server, scans: Scans, seconds: float) -> Result:
    """Hold one phone's scan against a request without database plus a bare durable commit."""
    echoes = Echoes(web.port)
    rounds: list[tuple[float, float, float]] = []
    for _ in range(ROUNDS):
        commits = timed(bare.scan, seconds / 4)
        asked = asyncio.run(load(echoes, 1, seconds / 4))
        mine = asyncio.run(load(scans, 1, seconds / 2))
        rounds.append(tuple(map(statistics.median, (commits, asked, mine))))  # type: ignore[arg-type]
    commit, request, scan = (statistics.median(column) for column in zip(*rounds, strict=True))
    floors = [one[0] + one[1] for one in rounds]
    return Result(
        what="one scan over the network, durable",
        figure=scan / (commit + request),
        goal=ONE[0],
        alarm=ONE[1],
        detail=f"{scan * 1e3:.2f} ms against {commit * 1e3:.2f} + {request * 1e3:.2f} ms",
        spread=max(floors) / min(floors),
    )


def timed(work: Callable[[], object], seconds: float) -> list[float]:
    """Do a piece of work for so long; return what each took by the clock."""
    until = time.perf_counter() + seconds
    taken: list[float] = []
    while time.perf_counter() < until or not taken:
        begun = time.perf_counter()
        work()
        taken.append(time.perf_counter() - begun)
    return taken


def at_once(folder: Path, scans: Scans, clients: int, seconds: float) -> Result:
    """Hold the slowest hundredth of many phones' scans against as many committing threads."""
    mine: list[float] = []
    floors: list[float] = []
    for place in range(WAITING_ROUNDS):
        floors.append(p99(committing(folder / f"bare-{clients}-{place}.db", clients, seconds)))
        mine.append(p99(asyncio.run(load(scans, clients, seconds))))
    lower, _, upper = statistics.quantiles(floors, n=4)
    return Result(
        what=f"slowest hundredth of scans, {clients} phones",
        figure=statistics.median(mine) / statistics.median(floors),
        goal=MANY[0],
        alarm=MANY[1],
        detail=f"{statistics.median(mine) * 1e3:.1f} ms against "
        f"{statistics.median(floors) * 1e3:.1f} ms, {WAITING_ROUNDS} rounds each",
        spread=upper / lower,
    )


def committing(path: Path, threads: int, seconds: float) -> list[float]:
    """Let threads do bare durable commits behind one lock; return what each waited and took."""
    taken: list[float] = []
    lock = threading.Lock()
    ready = threading.Barrier(threads)

    def run() -> None:
        bare = Bare(path.with_suffix(f".{threading.get_ident()}.db"), 10)

        def commit() -> None:
            with lock:
                bare.scan()

        ready.wait()
        found = timed(commit, seconds)
        with lock:
            taken.extend(found)

    every = [threading.Thread(target=run) for _ in range(threads)]
    for each in every:
        each.start()
    for each in every:
        each.join()
    return taken


def p99(taken: Sequence[float]) -> float:
    """Return the time that 99 of 100 stay below."""
    return sorted(taken)[int(len(taken) * 0.99)]


def first_page(served: Server, secret: str) -> Result:
    """Count what a phone loads until its first page can be used."""

    def loaded(path: str) -> bytes:
        asked = HTTPConnection("127.0.0.1", served.port, timeout=10)
        asked.request("GET", path, headers={"Cookie": f"{COOKIE}={secret}"})
        return asked.getresponse().read()

    page = loaded("/T2/scan")
    files = {name.decode() for name in re.findall(rb'/static/[^"?]+', page)}
    files |= {"/static/queue.js", "/static/answers.js"}
    weight = len(page) + sum(len(loaded(name)) for name in files)
    return Result(
        what="first page, all its files",
        figure=weight / 1000,
        goal=FIRST_PAGE_KB[0],
        alarm=FIRST_PAGE_KB[1],
        unit="kB",
        detail=f"{len(files) + 1} files, none compressed",
    )


def started(address: str, rounds: int) -> Iterator[Result]:
    """Hold start and idle memory against a server with the same libraries alone."""
    taken: list[tuple[float, float, float, float]] = []
    for _ in range(rounds):
        with floor("alone") as alone:
            small = (alone.seconds, alone.memory)
        with ours(address) as mine:
            taken.append((mine.seconds, small[0], mine.memory, small[1]))
    ours_s, floor_s, ours_mb, floor_mb = (
        statistics.median(column) for column in zip(*taken, strict=True)
    )
    spread = max(one[1] for one in taken) / min(one[1] for one in taken)
    for what, mine_, least, unit in (
        ("from `serve` to the first answer", ours_s, floor_s, "s"),
        ("memory of an idle server", ours_mb, floor_mb, "MiB"),
    ):
        yield Result(
            what=what,
            figure=mine_ / least,
            goal=START[0],
            alarm=START[1],
            detail=f"{mine_:.2f} {unit} against {least:.2f} {unit}",
            spread=spread,
        )


if __name__ == "__main__":
    sys.exit(main(__doc__, measured))
