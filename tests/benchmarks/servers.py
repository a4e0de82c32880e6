"""PostgreSQL for the benchmarks: a packaged server with its full durability, and its own CPU."""

from __future__ import annotations

import os
import shutil
import tempfile
import time
import warnings
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from tests.benchmarks.measure import Spent
from tests.postgres import Server, _packaged

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

TICKS = os.sysconf("SC_CLK_TCK")


@contextmanager
def durable_server() -> Iterator[tuple[Server, int]]:
    """Start a server as it is installed (fsync on); give it and its process number."""
    folder = Path(tempfile.mkdtemp(prefix="kitwright-bench-"))
    folder.chmod(0o755)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # it grumbles about the environment of a bare machine
        server = _packaged().get_server(folder / "pg", cleanup_mode="delete")
    try:
        yield Server(server.get_uri()), int(server.get_pid())
    finally:
        server.cleanup()
        shutil.rmtree(folder, ignore_errors=True)


def on_server(pid: int, work: Callable[[], object]) -> Callable[[], Spent]:
    """Return how to measure work here and on a server: the processor time of both."""

    def measured() -> Spent:
        there, cpu, wall = server_cpu(pid), time.process_time(), time.perf_counter()
        work()
        return Spent(
            time.process_time() - cpu + server_cpu(pid) - there, time.perf_counter() - wall
        )

    return measured


def server_cpu(pid: int) -> float:
    """Return the processor seconds of a server and of all it started, living or gone."""
    ticks = 0
    for folder in Path("/proc").iterdir():
        if not folder.name.isdigit():
            continue
        try:
            fields = folder.joinpath("stat").read_text().rpartition(")")[2].split()
        except OSError:
            continue
        if int(folder.name) == pid:
            ticks += sum(map(int, fields[11:15]))
        elif int(fields[1]) == pid:
            ticks += sum(map(int, fields[11:13]))
    return ticks / TICKS
