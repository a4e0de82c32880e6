"""Scans parts out, line after line, with the real command; safeguards can be taken off.

    python -m tests.faults.scanner STORE LINES [synchronous=VALUE] [early]

`early` shows the answer before the act is stored: the mistake that a kill must find.
"""

from __future__ import annotations

import io
import os
import sys
from typing import TYPE_CHECKING

from inventory.cli.app import run
from inventory.jobs.bench import scanning
from inventory.jobs.bench.issuing import issue
from inventory.store.opening import engine
from tests.faults.workshop import PART, STEP

if TYPE_CHECKING:
    from inventory.core.record.ledger import Movement
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench
    from inventory.jobs.bench.issuing import Issue


def main(store: str, lines: str, *off: str) -> None:
    """Scan the step once, then the part again and again."""
    for each in off:
        name, _, value = each.partition("=")
        if name == "synchronous":
            engine.PRAGMAS["synchronous"] = int(value)
    if "early" in off:
        _answer_before_storing()
    sys.stdin = io.StringIO(f"{STEP}\n" + f"{PART}\n" * int(lines))
    sys.exit(run(["--store", store, "scan"]))


def _answer_before_storing() -> None:
    def early(bench: Bench, wanted: Issue, slip: Slip) -> Movement:
        os.write(1, b"OK\n")
        return issue(bench, wanted, slip)

    setattr(scanning, "issue", early)  # noqa: B010 - the name isn't its own there


if __name__ == "__main__":
    main(*sys.argv[1:])
