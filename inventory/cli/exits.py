"""Exit codes of the command, and the one place that turns refusals into words."""

from __future__ import annotations

import sys
from enum import IntEnum

from inventory.core.errors import (
    AlreadyDoneError,
    InventoryError,
    ProblemsError,
    StoreError,
)
from inventory.core.plain import plain

MOST_PROBLEMS = 20


class Exit(IntEnum):
    """What the command tells the shell."""

    DONE = 0
    FAULT = 1
    WRONG_USE = 2
    REFUSED = 3
    FINDINGS = 4
    NO_STORE = 5
    INTERRUPTED = 130


def told(error: InventoryError) -> Exit:
    """Say on stderr why an act was refused and what to do; return the exit code."""
    if isinstance(error, AlreadyDoneError):
        sys.stderr.write(f"done already: {plain(error.what)}\n")
        return Exit.DONE
    sys.stderr.write(f"error: {plain(error.what)}\n")
    if error.where:
        sys.stderr.write(f"where: {plain(error.where)}\n")
    if isinstance(error, ProblemsError):
        for problem in error.problems[:MOST_PROBLEMS]:
            sys.stderr.write(f"  {plain(str(problem))}\n")
        if len(error.problems) > MOST_PROBLEMS:
            sys.stderr.write(f"  ... and {len(error.problems) - MOST_PROBLEMS} more\n")
    if error.remedy:
        sys.stderr.write(f"try:   {plain(error.remedy)}\n")
    return Exit.NO_STORE if isinstance(error, StoreError) else Exit.REFUSED
