"""The scan station: reads a line a scan, answers each."""

from __future__ import annotations

import sys
import time
from typing import TYPE_CHECKING

from inventory.cli import context
from inventory.cli.show import note

if TYPE_CHECKING:
    from collections.abc import Iterator

    import typer

    from inventory.jobs.scanning import ScanSession, Verdict


def add_to(app: typer.Typer) -> None:
    """Put the command into the tree."""
    app.command("scan")(scan)


def scan() -> None:
    """Scan parts out to steps: bin, part, step; or the step first, then many parts.

    Reads a line a scan, from a scanner that types, from the keyboard, or piped in. Each OK is
    stored before it is shown. The control sheet has UNDO, DONE, YES, CLEAR and the digits.

    Example: kitwright scan --device bench
    """
    from inventory.jobs.scanning import ScanSession

    session = ScanSession(context.open_bench(), context.new_slip)
    at_terminal = sys.stdin.isatty()
    if at_terminal:
        note("scan a bin or a step first; Ctrl-D ends")
    try:
        for line in _lines(session, prompt=at_terminal):
            _answer(session.scan(line, time.monotonic() if at_terminal else None))
    finally:
        counted = ", ".join(f"{number} {answer}" for answer, number in session.tally.items())
        note(f"this session: {counted or 'nothing scanned'}")


def _lines(session: ScanSession, *, prompt: bool) -> Iterator[str]:
    while True:
        try:
            line = input(f"{session.state} > " if prompt else "")
        except EOFError:
            return
        if line.strip():
            yield line


def _answer(verdict: Verdict) -> None:
    from inventory.cli.table import screen_width
    from inventory.cli.verdict import (
        drawn_verdict,
        spoken_verdict,
        wants_colour,
    )

    out = sys.stdout
    if not out.isatty():
        out.write(spoken_verdict(verdict))
    else:
        unicode = (out.encoding or "").lower().startswith("utf")
        width = min(screen_width(), 72)
        out.write(
            drawn_verdict(verdict, width, colour=wants_colour(at_terminal=True), unicode=unicode)
        )
    out.flush()
