"""Text of a cell made fit to show: blanks evened out, nothing invisible left in."""

from __future__ import annotations

import re

_UNSEEN = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069"
    "\ud800-\udfff\ufffe\uffff]"
)
_ESCAPED = re.compile("_x([0-9A-Fa-f]{4})_")
LONGEST_CELL = 32_767
"""Characters; the format's own limit."""


def clean(text: str) -> str:
    """Return what a person sees: lines kept, blanks single, control signs shown as their number."""
    if _UNSEEN.search(text):
        text = _UNSEEN.sub(lambda sign: f"⟨U+{ord(sign[0]):04X}⟩", text)
    if "\n" in text or "\r" in text:
        lines = (" ".join(line.split()) for line in text.splitlines())
        return "\n".join(line for line in lines if line)
    return " ".join(text.split())


def unescape(text: str) -> str:
    """Return a workbook's text with its `_x000D_` escapes undone."""
    return _ESCAPED.sub(lambda sign: chr(int(sign[1], 16)), text) if "_x" in text else text


def leading_blanks(text: str) -> int:
    """Return how far the text is set in by blanks; a tab counts as four."""
    start = text[: len(text) - len(text.lstrip())]
    return len(start.rpartition("\n")[2].expandtabs(4))
