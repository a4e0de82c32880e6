"""Kills the program with SIGKILL at random moments, and looks at what is left.

    python -m tests.faults.kill_loop [--kind scan] [--times 1000] [--seed 1] [--early]

Kinds: scan (the real `kitwright scan`, lines piped in), web (a phone's scans), import (a packing
list of 800 lines), backup, restore, migrate. `--early` answers before storing and must lose
something. One line of JSON at the end: kills, acts acknowledged, acts lost, stores torn or damaged.
"""

from __future__ import annotations

import argparse
import contextlib
import io
import json
import os
import random
import select
import signal
import sys
import tempfile
import time
import traceback
from collections import Counter
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from inventory.cli import table as _table  # noqa: F401
from inventory.cli.app import run
from inventory.cli.bench import scan as _scan  # noqa: F401 - so that no child imports it again
from inventory.cli.bench import verdict as _verdict  # noqa: F401
from inventory.jobs.bench import scanning as _scanning  # noqa: F401
from tests.faults import killed
from tests.faults.workshop import make_workshop

if TYPE_CHECKING:
    from collections.abc import Callable


@dataclass(frozen=True)
class Kind:
    """What is killed: what to run, and what to judge it by."""

    run: Callable[[Path, bool], None]
    judge: Callable[[Path, int], str]
    endless: bool = False
    """It answers until it is killed: the clock runs from its first answer."""


_ENDLESS = 0.08
"""Seconds after its first answer within which an endless one is killed."""

KINDS = {
    "scan": Kind(killed.scan, killed.judge_scan, endless=True),
    "web": Kind(killed.scan_by_phone, killed.judge_scan, endless=True),
    "import": Kind(killed.take_in_list, killed.judge_list),
    "backup": Kind(killed.back_up_now, killed.judge_backup),
    "restore": Kind(killed.restore_now, killed.judge_restore),
    "migrate": Kind(killed.migrate_now, killed.judge_migrated),
}


def killed_once(kind: Kind, folder: Path, after: float, *, early: bool) -> int:
    """Run in a child of this process, kill it after so many seconds; return its answers."""
    reading, writing = os.pipe()
    child = os.fork()
    if not child:
        os.dup2(writing, 1)
        os.close(reading)
        sys.stdout = open(1, "w", encoding="utf-8", closefd=False)  # noqa: SIM115
        try:
            kind.run(folder, early)
        except BaseException:  # noqa: BLE001 - a child must never go on as its parent
            traceback.print_exc()
            os._exit(1)
        os._exit(0)
    os.close(writing)
    answers = b""
    while kind.endless and b"OK" not in answers and (more := os.read(reading, 65536)):
        answers += more
    answers += _answers_until(reading, time.monotonic() + after)
    os.kill(child, signal.SIGKILL)
    _, status = os.waitpid(child, 0)
    if kind.endless and not os.WIFSIGNALED(status):
        raise RuntimeError("the program ended by itself before it was killed")
    while more := os.read(reading, 65536):
        answers += more
    os.close(reading)
    return sum(line.startswith(b"OK") for line in answers.splitlines())


def _answers_until(reading: int, end: float) -> bytes:
    answers = b""
    while (left := end - time.monotonic()) > 0 and select.select([reading], [], [], left)[0]:
        more = os.read(reading, 65536)
        if not more:
            break
        answers += more
    return answers


def killed_often(name: str, times: int, seed: int, *, early: bool = False) -> dict[str, object]:
    """Kill so many times; return the figures."""
    chance = random.Random(seed)  # noqa: S311 - moments, not secrets
    kind = KINDS[name]
    found: Counter[str] = Counter()
    acknowledged = 0
    with tempfile.TemporaryDirectory(prefix="kitwright-kills-") as place:
        folder = Path(place)
        make_workshop(folder / "kits.kitwright")
        killed.prepare(folder, name)
        _warm_up()
        longest = _ENDLESS if kind.endless else _once_to_the_end(kind, folder)
        for _ in range(times):
            after = chance.uniform(0, longest)
            answers = killed_once(kind, folder, after, early=early)
            acknowledged += answers
            found[kind.judge(folder, answers)] += 1
    figures: dict[str, object] = {"kind": name, "kills": times, "acknowledged": acknowledged}
    return figures | {words or "sound": number for words, number in sorted(found.items())}


def _warm_up() -> None:
    """Import here what every child would import by itself."""
    with contextlib.redirect_stdout(io.StringIO()):
        run(["scan", "--help"])


def _once_to_the_end(kind: Kind, folder: Path) -> float:
    """Return how long it takes when nobody kills it; twice, since the first time imports."""
    times = []
    for _ in range(2):
        began = time.monotonic()
        answers = killed_once(kind, folder, 60, early=False)
        times.append(time.monotonic() - began)
        kind.judge(folder, answers)
    return times[-1]


def main() -> None:
    asked = argparse.ArgumentParser()
    asked.add_argument("--kind", choices=KINDS, default="scan")
    asked.add_argument("--times", type=int, default=1000)
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--early", action="store_true")
    given = asked.parse_args()
    figures = killed_often(given.kind, given.times, given.seed, early=given.early)
    sys.stdout.write(json.dumps(figures) + "\n")


if __name__ == "__main__":
    main()
