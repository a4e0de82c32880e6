"""The answer to a scan: a word, a frame of its own and a bell, never colour alone."""

from __future__ import annotations

import os
import textwrap
from typing import TYPE_CHECKING

from inventory.cli.table import shown_width
from inventory.core.frozen import frozen
from inventory.core.plain import plain

if TYPE_CHECKING:
    from inventory.jobs.bench.scanning import Verdict

BELL = "\a"


@frozen
class Look:
    """How an answer is told from the others at arm's length."""

    sign: str
    plain_sign: str
    """For a terminal that shows ASCII only."""
    edge: str
    """Two characters that make the frame."""
    colour: str
    """SGR numbers: bold white on blue for yes, bold black on yellow for no."""
    bells: int


_LOOKS = {
    "OK": Look("\u2714", "+", "==", "1;97;44", 1),
    "UNDONE": Look("\u21b6", "<", "~~", "1;97;44", 1),
    "NOT OK": Look("\u2716", "X", "# ", "1;30;103", 2),
    "QUESTION": Look("?", "?", "? ", "1;30;103", 2),
    "NOTED": Look("\u00b7", ".", "", "", 0),
}


def drawn_verdict(verdict: Verdict, width: int, *, colour: bool, unicode: bool) -> str:
    """Return the answer in its frame, at most `width` characters wide, bells included."""
    look = _LOOKS[verdict.answer]
    sign = look.sign if unicode else look.plain_sign
    if not look.edge:
        return "".join(f"{line}\n" for line in _wrapped(f"{sign} ", verdict.words, width))
    edge = (look.edge * width)[:width]
    body = [edge, *_wrapped(f" {sign} {verdict.answer} {sign}  ", verdict.words, width)]
    body += _wrapped("   ", verdict.remedy, width) if verdict.remedy else []
    body.append(edge)
    if colour:
        body = [f"\x1b[{look.colour}m{_filled(line, width)}\x1b[0m" for line in body]
    return "".join(f"{line}\n" for line in body) + BELL * look.bells


def _wrapped(head: str, words: str, width: int) -> list[str]:
    """Return the words behind a head, wrapped at blanks only: no part number is ever cut."""
    return textwrap.wrap(
        plain(words),
        width,
        initial_indent=head,
        subsequent_indent="   ",
        break_long_words=False,
        break_on_hyphens=False,
    ) or [head.rstrip()]


def _filled(line: str, width: int) -> str:
    return line + " " * (width - shown_width(line))


def spoken_verdict(verdict: Verdict) -> str:
    """Return the answer as one line, for a pipe or a log."""
    remedy = f" {plain(verdict.remedy)}" if verdict.remedy else ""
    stop = "" if verdict.words.endswith("?") else "."
    return f"{verdict.answer}: {plain(verdict.words)}{stop}{remedy}\n"


def wants_colour(*, at_terminal: bool) -> bool:
    """Say whether colour is welcome: a terminal, no NO_COLOR, not a dumb one."""
    return at_terminal and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"
