"""Counts in words."""

from __future__ import annotations


def counted(number: int, word: str) -> str:
    """Return a count with its noun: 1 line, 2 lines, 3 boxes."""
    if number == 1:
        return f"1 {word}"
    return f"{number} {word}{'es' if word.endswith(('x', 's', 'ch')) else 's'}"
