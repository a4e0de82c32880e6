"""The answer to a scan: a word, a frame of its own and a bell, never colour alone."""

from __future__ import annotations

import os
from dataclasses import dataclass
from typing import TYPE_CHECKING

from inventory.core.plain import plain

if TYPE_CHECKING:
    from inventory.jobs.scanning import Verdict

BELL = "\a"


@dataclass(frozen=True, slots=True)
class Look:
    """How an answer is told from the others at arm's length."""

    sign: str
    edge: str
    """Two characters that make the frame."""
    colour: str
    """SGR numbers: bold white on blue for yes, bold black on yellow for no."""
    bells: int


_LOOKS = {
    "OK": Look("\u2714", "==", "1;97;44", 1),
    "UNDONE": Look("\u21b6", "~~", "1;97;44", 1),
    "NOT OK": Look("\u2716", "# ", "1;30;103", 2),
    "QUESTION": Look("?", "? ", "1;30;103", 2),
    "NOTED": Look("\u00b7", "", "", 0),
}
_PLAIN_SIGNS = {"\u2714": "+", "\u21b6": "<", "\u2716": "X", "\u00b7": "."}


def drawn_verdict(verdict: Verdict, width: int, *, colour: bool, unicode: bool) -> str:
    """Return the answer in its frame, `width` characters wide, bells included."""
    look = _LOOKS[verdict.answer]
    sign = look.sign if unicode else _PLAIN_SIGNS.get(look.sign, look.sign)
    head = f"{sign} {verdict.answer} {sign}"
    if not look.edge:
        return f"{sign} {plain(verdict.words)}\n"
    edge = (look.edge * width)[:width]
    body = [edge, f" {head}  {plain(verdict.words)}"]
    if verdict.remedy:
        body.append(f"   {plain(verdict.remedy)}")
    body.append(edge)
    if colour:
        body = [f"\x1b[{look.colour}m{line.ljust(width)}\x1b[0m" for line in body]
    return "\n".join(body) + "\n" + BELL * look.bells


def spoken_verdict(verdict: Verdict) -> str:
    """Return the answer as one line, for a pipe or a log."""
    remedy = f" {plain(verdict.remedy)}" if verdict.remedy else ""
    return f"{verdict.answer}: {plain(verdict.words)}.{remedy}\n"


def wants_colour(*, at_terminal: bool) -> bool:
    """Say whether colour is welcome: a terminal, no NO_COLOR, not a dumb one."""
    return at_terminal and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"
