"""Code 128 (ISO/IEC 15417): text to bars, with the fewest symbols that can carry it."""

from __future__ import annotations

from functools import lru_cache
from typing import TypeAlias

from barcode.charsets import code128 as tables

from labels.errors import LabelError

QUIET = 10
"""Modules of white at each end (ISO/IEC 15417:2007, 4.4.2)."""
SYMBOL = 11
STOP = 13
STOP_VALUE = 106
_START = {"A": 103, "B": 104, "C": 105}
_TURN = {"A": 101, "B": 100, "C": 99}
_SHIFT = 98
_OTHER = {"A": "B", "B": "A"}
_HELD = {"A": "9ax", "B": "9bx"}
_BARS: tuple[str, ...] = tuple(tables.CODES)
_STOP_BARS: str = tables.STOP + "11"
_BLANK, _LAST_A, _LAST_ASCII = 32, 95, 127
_MODULUS = 103
_KINDS = str.maketrans(
    {
        **{chr(code): "a" for code in range(_BLANK)},
        **{chr(code): "x" for code in range(_BLANK, _LAST_A + 1)},
        **{chr(code): "b" for code in range(_LAST_A + 1, _LAST_ASCII + 1)},
        **dict.fromkeys("0123456789", "9"),
    }
)
"""Which code sets hold a character: a digit, A alone, B alone, or A and B."""

_Plan: TypeAlias = tuple[tuple[str, str], ...]
"""Actions (start, turn, shift, one, pair), each with the code set it is for."""


@lru_cache(maxsize=16384)
def values(text: str) -> tuple[int, ...]:
    """Return the symbol values from start to check character, without stop.

    The check is (start + sum of place x value) mod 103. Raises `LabelError` for no text and for
    characters outside ASCII.
    """
    if not text or not text.isascii():
        foreign = "".join(dict.fromkeys(character for character in text if character > "\x7f"))
        what = f"{foreign} can't stand" if foreign else "nothing was given to stand"
        raise LabelError(f"{what} in Code 128", "Use ASCII letters, digits and signs.")
    symbols: list[int] = []
    place = 0
    for action, code_set in _plan(text.translate(_KINDS)):
        if action == "start":
            symbols.append(_START[code_set])
        elif action == "turn":
            symbols.append(_TURN[code_set])
        elif code_set == "C":
            symbols.append(int(text[place : place + 2]))
            place += 2
        else:
            if action == "shift":
                symbols.append(_SHIFT)
            symbols.append(_value(text[place], code_set))
            place += 1
    weighted = symbols[0] + sum(place * value for place, value in enumerate(symbols))
    return (*symbols, weighted % _MODULUS)


def width(text: str) -> int:
    """Return the modules from the first bar to the last, quiet zones not counted."""
    return SYMBOL * len(values(text)) + STOP


def modules(text: str) -> str:
    """Return the whole symbol as ones for bars and zeros for spaces."""
    return "".join(_BARS[value] for value in values(text)) + _STOP_BARS


def pattern(value: int) -> str:
    """Return the modules of one symbol value, stop included."""
    return _STOP_BARS if value == STOP_VALUE else _BARS[value]


def _value(character: str, code_set: str) -> int:
    """Return the value of one character in set A or B."""
    code = ord(character)
    return code + 64 if code_set == "A" and code < _BLANK else code - _BLANK


@lru_cache(maxsize=4096)
def _plan(kinds: str) -> _Plan:
    """Return the cheapest way through the code sets, found by dynamic programming.

    Each state is the code set in force; a step costs one symbol, a switch or a shift one more.
    Ties are settled by fewer switches, then in favour of B.
    """
    table: list[dict[str, tuple[int, _Plan]]] = [{} for _ in range(len(kinds) + 1)]
    for code_set in "BAC":
        table[0][code_set] = (1, (("start", code_set),))
    for place in range(len(kinds)):
        best = _with_turns(table[place], first=place == 0)
        for code_set, (cost, plan) in best.items():
            action, size, more = _step(kinds, place, code_set)
            if size:
                used = _OTHER[code_set] if action == "shift" else code_set
                table[place + size][code_set] = (cost + more, (*plan, (action, used)))
    return min(table[-1].values(), key=lambda way: way[0])[1]


def _with_turns(
    states: dict[str, tuple[int, _Plan]], *, first: bool
) -> dict[str, tuple[int, _Plan]]:
    """Return the states with those added that a switch of code set reaches more cheaply."""
    if first:
        return states
    reached = dict(states)
    for code_set in "BAC":
        for cost, plan in states.values():
            if code_set not in reached or reached[code_set][0] > cost + 1:
                reached[code_set] = (cost + 1, (*plan, ("turn", code_set)))
    return reached


def _step(kinds: str, place: int, code_set: str) -> tuple[str, int, int]:
    """Return what comes next in this code set: action, characters and symbols; 0 for nothing."""
    if code_set == "C":
        return "pair", 2 if kinds[place : place + 2] == "99" else 0, 1
    held = kinds[place] in _HELD[code_set]
    return ("one", 1, 1) if held else ("shift", 1, 2)
