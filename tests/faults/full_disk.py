"""Lets no file grow beyond a size, for one size after another: a disk that fills at every point.

    python -m tests.faults.full_disk [--step 4096] [--only backup]

For each command and each size: what was recorded before stays, nothing is half recorded, one
sentence of the catalogue is said, and the same command works once there is room again. One line
of JSON for each command at the end.
"""

from __future__ import annotations

import argparse
import contextlib
import io
import json
import os
import resource
import shutil
import signal
import sys
import tempfile
from collections import Counter
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from inventory.cli import context
from inventory.cli.app import run
from inventory.cli.exits import Exit
from inventory.jobs.record.verifying import verify_file
from tests.faults.workshop import PART, STEP, make_workshop

if TYPE_CHECKING:
    from collections.abc import Callable

STORE = "kits.kitwright"
SAID = ("the disk", "could not be written", "can't be made", "can't be exchanged", "can't be used")
_LARGEST = 4_000_000


@dataclass(frozen=True)
class Tried:
    """How one command ended on a disk that was full at one size."""

    code: int
    said: str
    sound: bool


COMMANDS: dict[str, Callable[[Path], list[str]]] = {
    "issue": lambda _: ["issue", PART, "1", "--step", STEP, "--from", "B-07"],
    "bin add": lambda _: ["bin", "add", "C-01..C-99"],
    "backup": lambda folder: ["backup", "--to", str(folder / "b")],
    "export": lambda folder: ["export", "-o", str(folder / "out")],
    "restore": lambda folder: ["restore", str(next((folder / "first").glob("*.kitwright")))],
    "kit new": lambda folder: ["--store", str(folder / "new.kitwright"), "kit", "new", "Tern"],
}


def tried(folder: Path, words: list[str], size: int) -> Tried:
    """Run a command while no file may grow beyond a size."""
    said = io.StringIO()
    context.typed = context.Context()
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, hard))
    try:
        with contextlib.redirect_stdout(io.StringIO()), contextlib.redirect_stderr(said):
            code = run(["--store", str(folder / STORE), *words])
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))
    return Tried(code, said.getvalue(), not verify_file(str(folder / STORE)).problems)


def swept(name: str, start: Path, step: int) -> dict[str, object]:
    """Try a command at every size from nothing up to where it works; return the figures."""
    found: Counter[str] = Counter()
    for size in range(0, _LARGEST, step):
        with tempfile.TemporaryDirectory(prefix="kitwright-full-") as place:
            folder = Path(place) / "store"
            shutil.copytree(start, folder)
            words = COMMANDS[name](folder)
            once = tried(folder, words, size)
            found[judged(folder, words, once)] += 1
        if once.code == Exit.DONE:
            return {"command": name, "sizes": found.total(), **found}
    return {"command": name, "sizes": found.total(), "never done": True, **found}


def judged(folder: Path, words: list[str], once: Tried) -> str:
    """Say what is wrong with how a command ended; empty where nothing is."""
    if not once.sound:
        return "damaged"
    if once.code == Exit.DONE:
        return "done"
    if once.code not in {Exit.REFUSED, Exit.NO_STORE} or not any(
        said in once.said for said in SAID
    ):
        return f"said: {once.said}"
    again = tried(folder, words, resource.RLIM_INFINITY)
    return "refused, and done again" if again.code == Exit.DONE else f"stuck: {again.said}"


def prepared(folder: Path) -> Path:
    """Make a store with a backup beside it."""
    signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    (folder / "start").mkdir()
    make_workshop(folder / "start" / STORE)
    words = ["--store", str(folder / "start" / STORE), "backup", "--to"]
    with contextlib.redirect_stdout(io.StringIO()):
        run([*words, str(folder / "start" / "first")])
    return folder / "start"


def main() -> None:
    asked = argparse.ArgumentParser()
    asked.add_argument("--step", type=int, default=4096)
    asked.add_argument("--only", action="append", choices=COMMANDS)
    given = asked.parse_args()
    os.environ["COLUMNS"] = "80"
    with tempfile.TemporaryDirectory(prefix="kitwright-full-") as place:
        start = prepared(Path(place))
        for name in given.only or COMMANDS:
            sys.stdout.write(json.dumps(swept(name, start, given.step)) + "\n")
            sys.stdout.flush()


if __name__ == "__main__":
    main()
