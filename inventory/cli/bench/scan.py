"""The scan station: reads a line a scan, answers each."""

from __future__ import annotations

import io
import sys
import time
from typing import TYPE_CHECKING, Annotated, Protocol

import typer

from inventory.cli import context
from inventory.cli.exits import Exit
from inventory.cli.show import note, say
from inventory.core.errors import InventoryError

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from inventory.core.scanning.scanner_check import Change
    from inventory.jobs.bench.scanning import Answer, Verdict


def add_to(app: typer.Typer) -> None:
    """Put the command into the tree."""
    app.command("scan")(scan)


def scan(
    *,
    test: Annotated[
        bool, typer.Option("--test", help="Scan the test card: what does the scanner change?")
    ] = False,
) -> int:
    """Scan parts out to steps: bin, part, step; or the step first, then many parts.

    Reads a line a scan, from a scanner that types, from the keyboard, or piped in. Each OK is
    stored before it is shown. The control sheet has UNDO, DONE, YES, CLEAR and the digits.

    Example: kitwright scan --device bench
    """
    from inventory.jobs.bench.scanning import ScanSession

    take_any_bytes()
    at_terminal = sys.stdin.isatty()
    if test:
        return _test_card(at_terminal=at_terminal)
    session = ScanSession(context.open_bench(), context.new_slip)
    if at_terminal:
        note("scan a bin or a step first; Ctrl-D ends")
    try:
        for line in scanned_lines(session, prompt=at_terminal):
            show_verdict(session.scan(line, time.monotonic() if at_terminal else None))
    finally:
        if at_terminal:
            note("")  # the prompt stands on the line, behind it ^C or nothing
        note_tally(session.tally)
    return Exit.DONE


def take_any_bytes() -> None:
    """Let bytes that aren't text in this terminal's encoding be answered like any wrong code."""
    if isinstance(sys.stdin, io.TextIOWrapper):
        sys.stdin.reconfigure(errors="surrogateescape")


class Station(Protocol):
    """Something that answers scans and says what is to be scanned next."""

    @property
    def state(self) -> str:
        """What is set, and what is to be scanned next."""


def scanned_lines(station: Station, *, prompt: bool) -> Iterator[str]:
    """Yield what is scanned or typed, line by line; at a terminal each is asked for."""
    while True:
        try:
            line = input(f"{station.state} > " if prompt else "")
        except EOFError:
            return
        if line.strip():
            yield line


def note_tally(tally: Mapping[Answer, int]) -> None:
    """Say at the end of a session how often each verdict was given."""
    counted = ", ".join(f"{number} {answer}" for answer, number in tally.items())
    note(f"this session: {counted or 'nothing scanned'}")


def show_verdict(verdict: Verdict) -> None:
    """Answer a scan: framed at a terminal, one line elsewhere."""
    from inventory.cli.bench.verdict import (
        drawn_verdict,
        spoken_verdict,
        wants_colour,
    )
    from inventory.cli.table import screen_width

    out = sys.stdout
    encoding = out.encoding or "ascii"
    if not out.isatty():
        text = spoken_verdict(verdict)
    else:
        unicode = encoding.lower().startswith("utf")
        width = min(screen_width(), 72)
        text = drawn_verdict(verdict, width, colour=wants_colour(at_terminal=True), unicode=unicode)
        # Lines pasted at once are echoed early: then the prompt still stands on this line.
        text = f"\r{' ' * (screen_width() - 1)}\r{text}"
    out.write(text.encode(encoding, "backslashreplace").decode(encoding))
    out.flush()


def _test_card(*, at_terminal: bool) -> int:
    """Say what the scanner makes of the characters of our labels."""
    if at_terminal:
        note("scan the large code of the test card, or its three small ones one after another")
    changes = list(dict.fromkeys(map(str, _changes())))
    for change in changes:
        say(change)
    if changes:
        say("Set the scanner's country or this computer's keyboard; until then, don't scan.")
        return Exit.FINDINGS
    say("every character arrives as it is printed")
    return Exit.DONE


def _changes() -> list[Change]:
    from inventory.core.scanning.scanner_check import check_test_card
    from inventory.core.scanning.scans import TEST_CARD, TEST_CARD_LINES

    changes: list[Change] = []
    lines = (line for line in sys.stdin if line.strip())
    for small in TEST_CARD_LINES:
        line = next(lines, "")
        if not line:
            raise InventoryError(
                "the test card wasn't scanned to its end", remedy="Begin with its first code again."
            )
        if len(line) > 2 * len(small):
            return check_test_card(TEST_CARD, line)
        changes += check_test_card(small, line)
    return changes
