"""The one way all benchmarks measure: floor and ours in turns, by processor time.

Wall time stands beside it and never decides: on a shared machine a commit's wall time is mostly
waiting. A comparison is void where the floor itself took twice as long in one round as in another.
"""

from __future__ import annotations

import argparse
import compileall
import json
import os
import shutil
import statistics
import subprocess
import sys
import time
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping, Sequence

ROUNDS = 5
STEADY = 2.0
"""The floor's slowest round may take so many times its fastest."""
ROOT = Path(__file__).parents[2]
PYTHON = sys.executable
LEFT_OUT = shutil.ignore_patterns("__pycache__")


@dataclass(frozen=True, slots=True)
class Spent:
    """What a piece of work took: seconds of processor and of the clock."""

    cpu: float
    wall: float
    peak: float = 0.0
    """Largest resident memory of a process of its own, in MiB."""

    def each(self, count: int) -> Spent:
        """Return the share of one of `count` equal pieces of work."""
        return Spent(self.cpu / count, self.wall / count, self.peak)


@dataclass(frozen=True, slots=True)
class Pair:
    """Floor and ours, medians of the rounds."""

    floor: Spent
    ours: Spent
    spread: float
    """The floor's slowest round over its fastest, by processor time."""

    @property
    def ratio(self) -> float:
        """How many times the floor ours takes."""
        return self.ours.cpu / self.floor.cpu

    @property
    def words(self) -> str:
        """Both in milliseconds, wall time in brackets."""
        return f"{_shown(self.ours)} against {_shown(self.floor)}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Result:
    """One figure beside its goal and the figure that alarms."""

    what: str
    figure: float
    goal: float
    alarm: float
    unit: str = "x"
    """x is a ratio to the floor."""
    detail: str = ""
    spread: float = 1.0

    @property
    def verdict(self) -> str:
        """Met, missed, alarming, or void because the floor wasn't steady."""
        if self.spread > STEADY:
            return "void"
        if self.figure <= self.goal:
            return "met"
        return "missed" if self.figure <= self.alarm else "ALARM"


def here(work: Callable[[], object]) -> Callable[[], Spent]:
    """Return how to measure a piece of work in this process."""

    def measured() -> Spent:
        cpu, wall = time.process_time(), time.perf_counter()
        work()
        return Spent(time.process_time() - cpu, time.perf_counter() - wall)

    return measured


def spawned(command: Sequence[str], **environment: str) -> Callable[[], Spent]:
    """Return how to measure a process of its own; it fails the run where the process fails.

    A child's peak is never less than this process's own size, so that whoever asks for memory must
    stay small.
    """
    around = {**os.environ, "PYTHONPATH": str(ROOT), **environment}
    around.pop("PYTHONDONTWRITEBYTECODE", None)

    def measured() -> Spent:
        begun = time.perf_counter()
        child = subprocess.Popen(
            command, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, env=around
        )
        said = child.stderr.read() if child.stderr else b""
        _, status, used = os.wait4(child.pid, 0)
        child.returncode = os.waitstatus_to_exitcode(status)
        if child.stderr:
            child.stderr.close()
        if child.returncode:
            raise RuntimeError(f"{' '.join(command)}: {said.decode(errors='replace')[-400:]}")
        wall = time.perf_counter() - begun
        return Spent(used.ru_utime + used.ru_stime, wall, used.ru_maxrss / 1024)

    return measured


def installed(folder: Path) -> Path:
    """Lay our packages into a folder as an installation does, compiled, and return the folder."""
    for package in ("inventory", "labels"):
        shutil.copytree(ROOT / package, folder / package, ignore=LEFT_OUT, dirs_exist_ok=True)
    shutil.copytree(ROOT / "sample_kits" / "tarn_rudder", folder / "inventory" / "demo_kit")
    compileall.compile_dir(folder, quiet=1)
    return folder


def paired(
    floor: Callable[[], Spent], ours: Callable[[], Spent], rounds: int = ROUNDS, warm: int = 1
) -> Pair:
    """Measure both in turns and return the medians; the first `warm` rounds don't count."""
    floors, mine = together([floor, ours], rounds, warm)
    return pair_of(floors, mine)


def together(
    ways: Sequence[Callable[[], Spent]], rounds: int = ROUNDS, warm: int = 1
) -> list[list[Spent]]:
    """Measure several ways in turns and return each one's rounds."""
    taken = [[way() for way in ways] for _ in range(warm + rounds)][warm:]
    return [list(column) for column in zip(*taken, strict=True)]


def pair_of(floors: Sequence[Spent], ours: Sequence[Spent]) -> Pair:
    """Return the medians of rounds that were measured in turns."""
    cpus = [each.cpu for each in floors]
    return Pair(middle(floors), middle(ours), max(cpus) / min(cpus))


def middle(rounds: Sequence[Spent]) -> Spent:
    """Return the medians of some rounds."""
    return Spent(
        statistics.median(each.cpu for each in rounds),
        statistics.median(each.wall for each in rounds),
        statistics.median(each.peak for each in rounds),
    )


def ratio(what: str, pair: Pair, goal: float, alarm: float) -> Result:
    """Return a comparison as a figure: ours over floor."""
    return Result(
        what=what,
        figure=pair.ratio,
        goal=goal,
        alarm=alarm,
        detail=pair.words,
        spread=pair.spread,
    )


def _shown(spent: Spent) -> str:
    return f"{spent.cpu * 1e3:.3g} ms ({spent.wall * 1e3:.3g})"


def line(row: Mapping[str, Any]) -> str:
    """Return a figure as one line of the table."""
    unit = "" if row["unit"] == "x" else f" {row['unit']}"
    figure = f"{row['figure']:.2f}{unit}"
    return (
        f"{row['what']:52} {figure:>13}  <= {row['goal']:<6g} {row['verdict']:6}  {row['detail']}"
    )


def plain(result: Result) -> dict[str, Any]:
    """Return a figure as plain values for JSON."""
    return {**asdict(result), "figure": round(result.figure, 4), "verdict": result.verdict}


def main(words: str | None, measured: Callable[[bool], Iterable[Result]]) -> int:
    """Run a module of benchmarks: print its table, write it as JSON; 1 where a figure alarms."""
    parser = argparse.ArgumentParser(
        description=words, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--quick", action="store_true", help="smaller sizes, fewer rounds")
    parser.add_argument("--json", type=Path, metavar="FILE", help="write the figures there, too")
    asked = parser.parse_args()
    rows = []
    for result in measured(asked.quick):
        rows.append(plain(result))
        print(line(rows[-1]), flush=True)
    if asked.json:
        asked.json.write_text(json.dumps(rows, indent=1) + "\n", encoding="utf-8")
    return int(any(row["verdict"] == "ALARM" for row in rows))
