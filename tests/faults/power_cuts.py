"""Cuts the power after every system call of the real program, and opens what may be left.

    python -m tests.faults.power_cuts [--scans 120] [--seeds 3] [--off synchronous=2]

`kitwright scan` runs once under strace; then, after each of its calls, a disk is put together
from what was synced and from some of what wasn't, opened by SQLite, and compared with the OKs
that had been shown by then. `--off synchronous=2` (FULL), `1` (NORMAL) or `0` (OFF) takes the
safeguard away and must lose or damage something. One line of JSON at the end.
"""

from __future__ import annotations

import argparse
import json
import random
import shutil
import sys
import tempfile
from collections import Counter
from pathlib import Path
from typing import TYPE_CHECKING

from inventory.jobs.verifying import verify_file
from tests.faults.disk import Disk
from tests.faults.traced import trace
from tests.faults.workshop import look, make_workshop

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tests.faults.traced import Call

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


def cut_everywhere(scans: int, seeds: int, off: list[str], strace: str) -> dict[str, object]:
    """Run, cut after each call as often as there are seeds, and return the figures."""
    with tempfile.TemporaryDirectory(prefix="kitwright-cuts-", dir=_fast_folder()) as place:
        folder = Path(place).resolve() / "store"
        folder.mkdir()
        make_workshop(folder / STORE)
        before = {path.name: path.read_bytes() for path in folder.iterdir()}
        command = ["-m", "tests.faults.scanner", str(folder / STORE), str(scans), *off]
        calls = trace(command, folder, strace)
        found: Counter[str] = Counter()
        for seed in range(seeds):
            chance = random.Random(seed)  # noqa: S311 - moments, not secrets
            for number, (disk, shown) in enumerate(moments(calls, before)):
                left = disk.after_cut(chance)
                found[judged(folder, left, shown, wholly=number % _VERIFIED == 0)] += 1
    shown = sum(call.content.startswith(b"OK") for call in calls if call.name == "answer")
    figures: dict[str, object] = {"shown": shown, "calls": len(calls), "cuts": found.total()}
    return figures | {words or "sound": number for words, number in sorted(found.items())}


def judged(folder: Path, left: dict[str, bytes], shown: int, *, wholly: bool) -> str:
    """Open what is left and say what is wrong with it."""
    shutil.rmtree(folder)
    folder.mkdir()
    for name, content in left.items():
        (folder / name).write_bytes(content)
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
    asked.add_argument("--scans", type=int, default=120)
    asked.add_argument("--seeds", type=int, default=3)
    asked.add_argument("--off", action="append", default=[])
    given = asked.parse_args()
    strace = shutil.which("strace")
    if strace is None:
        sys.exit("the program strace is not installed")
    figures = cut_everywhere(given.scans, given.seeds, given.off, strace)
    sys.stdout.write(json.dumps({"off": given.off, **figures}) + "\n")


if __name__ == "__main__":
    main()
