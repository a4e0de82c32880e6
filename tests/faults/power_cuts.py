"""Cuts the power after every system call of the real program, and opens what may be left.

    python -m tests.faults.power_cuts [--run scan] [--times 120] [--seeds 3] [--off synchronous=2]

`kitwright scan` (or taking in lists, restoring, beginning a store) runs once under strace; then,
after each of its calls, a disk is put together from what was synced and from some of what wasn't,
opened, and compared with the OKs that had been shown by then. `--off synchronous=2` (FULL), `1`
(NORMAL) or `0` (OFF) takes a scan's safeguard away and must lose or damage something. One line of
JSON at the end.
"""

from __future__ import annotations

import argparse
import json
import random
import shutil
import sys
import tempfile
from collections import Counter
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from inventory.jobs.record.verifying import verify_file
from tests.faults import written
from tests.faults.disk import Disk
from tests.faults.traced import trace
from tests.faults.workshop import look, make_workshop

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tests.faults.traced import Call

SCAN = "scan"
STORE = "kits.kitwright"
_VERIFIED = 100
"""One cut in so many is verified wholly, chain of seals and all."""


def apply(disk: Disk, call: Call) -> None:
    """Let the disk see a call."""
    match call.name:
        case "openat":
            disk.open(call.file, create="O_CREAT" in call.other, cut="O_TRUNC" in call.other)
        case "write":
            disk.write(call.file, call.start, call.content)
        case "cut off":
            disk.cut_off(call.file, call.start)
        case "sync":
            disk.sync(call.file)
        case "sync folder":
            disk.sync_folder()
        case "unlink" | "unlinkat":
            disk.unlink(call.file)
        case "rename" | "renameat" | "renameat2":
            disk.rename(call.file, call.other)
        case _:
            raise ValueError(f"an unknown call: {call.name}")


def moments(calls: list[Call], before: dict[str, bytes]) -> Iterator[tuple[Disk, int]]:
    """Yield the disk after each call, with the OKs shown so far."""
    disk, shown = Disk.holding(before), 0
    for call in calls:
        if call.name == "answer":
            shown += call.content.startswith(b"OK")
        else:
            apply(disk, call)
        yield disk, shown


def cut_everywhere(run: Run, seeds: int, strace: str) -> dict[str, object]:
    """Run, cut after each call as often as there are seeds, and return the figures."""
    with tempfile.TemporaryDirectory(prefix="kitwright-cuts-", dir=_fast_folder()) as place:
        folder = Path(place).resolve() / "store"
        folder.mkdir()
        written.prepared(run.kind, folder) if run.kind != SCAN else make_workshop(folder / STORE)
        before = {path.name: path.read_bytes() for path in folder.iterdir() if path.is_file()}
        calls = trace(run.command(folder), folder, strace)
        found: Counter[str] = Counter()
        for seed in range(seeds):
            chance = random.Random(seed)  # noqa: S311 - moments, not secrets
            for number, (disk, shown) in enumerate(moments(calls, before)):
                lay(folder, disk.after_cut(chance))
                found[judged(run, folder, shown, wholly=number % _VERIFIED == 0)] += 1
    shown = sum(call.content.startswith(b"OK") for call in calls if call.name == "answer")
    figures = {"run": run.kind, "shown": shown, "calls": len(calls), "cuts": found.total()}
    return figures | {words or "sound": number for words, number in sorted(found.items())}


@dataclass(frozen=True)
class Run:
    """What is run under strace."""

    kind: str
    times: int
    off: tuple[str, ...] = ()

    def command(self, folder: Path) -> list[str]:
        """Return the words after `python`."""
        if self.kind == SCAN:
            store = str(folder / STORE)
            return ["-m", "tests.faults.scanner", store, str(self.times), *self.off]
        return ["-m", "tests.faults.written", self.kind, str(folder), str(self.times)]


def lay(folder: Path, left: dict[str, bytes]) -> None:
    """Put the files that are left into the folder, and nothing else."""
    shutil.rmtree(folder)
    folder.mkdir()
    for name, content in left.items():
        (folder / name).write_bytes(content)


def judged(run: Run, folder: Path, shown: int, *, wholly: bool) -> str:
    """Open what is left and say what is wrong with it."""
    if run.kind != SCAN:
        return written.JUDGES[run.kind](folder, shown)
    found = look(folder / STORE)
    if found.wrong:
        return "torn" if "torn" in found.wrong else "damaged"
    if found.issued < shown:
        return "lost"
    if wholly and verify_file(str(folder / STORE)).problems:
        return "doesn't verify"
    return ""


def _fast_folder() -> str | None:
    return "/dev/shm" if Path("/dev/shm").is_dir() else None  # noqa: S108 - memory, not disk


def main() -> None:
    asked = argparse.ArgumentParser()
    asked.add_argument("--run", choices=[SCAN, *written.RUNS], default=SCAN)
    asked.add_argument("--times", type=int, default=120)
    asked.add_argument("--seeds", type=int, default=3)
    asked.add_argument("--off", action="append", default=[])
    given = asked.parse_args()
    strace = shutil.which("strace")
    if strace is None:
        sys.exit("the program strace is not installed")
    run = Run(given.run, given.times, tuple(given.off))
    figures = cut_everywhere(run, given.seeds, strace)
    sys.stdout.write(json.dumps({"off": given.off, **figures}) + "\n")


if __name__ == "__main__":
    main()
