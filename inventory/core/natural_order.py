"""The order in which a person looks for names: B-2 before B-10."""

from __future__ import annotations


def natural(text: str) -> tuple[tuple[int, str, int], ...]:
    """Return a sort key under which B-2 comes before B-10."""
    parts: list[tuple[int, str, int]] = []
    for digits, run in _runs(text):
        parts.append((0, "", int(run)) if digits else (1, run.casefold(), 0))
    return tuple(parts)


def _runs(text: str) -> list[tuple[bool, str]]:
    """Return the text cut where digits begin and end."""
    runs: list[tuple[bool, str]] = []
    for character in text:
        digit = character.isdecimal()
        if runs and runs[-1][0] is digit:
            runs[-1] = (digit, runs[-1][1] + character)
        else:
            runs.append((digit, character))
    return runs
