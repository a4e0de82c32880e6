"""One label: what is encoded, and what a person reads."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from labels.symbol import Square
from labels.typeface import Face


class Role(StrEnum):
    """What a line is for; it decides type, size and whether the line may be shortened."""

    HEADLINE = "headline"
    """Read from where a person stands; never broken or cut."""
    NUMBER = "number"
    """A part number, read in the hand; never broken or cut."""
    WORDS = "words"
    """A description; shortened from the middle, or left out where nothing else helps."""
    SMALL = "small"
    """Dates and the like, the first to be left out."""


class Shape(StrEnum):
    """The outline of a flag, told apart without colour and without reading."""

    POINTED_LEFT = "pointed-left"
    ROUND_RIGHT = "round-right"
    STRIPED = "striped"
    CROSSED = "crossed"
    PLAIN = "plain"


@dataclass(frozen=True, slots=True)
class Flag:
    """A word in white on black, in a shape of its own."""

    word: str
    shape: Shape = Shape.PLAIN


@dataclass(frozen=True, slots=True)
class Line:
    """One line of text."""

    text: str
    role: Role = Role.WORDS


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """What one label carries; how it is laid out follows from the stock and the printer."""

    content: str
    """The text in the symbols, and in small print for typing; empty for a label without code."""
    lines: tuple[Line, ...] = ()
    flag: Flag | None = None
    square: Square | None = Square.QR
    """None for Code 128 alone."""
    linear: bool = True
    """Add the same text in Code 128 where it fits."""
    distance: float = 700.0
    """Millimetres from which the headline and the flag are read."""


FACES = {
    Role.HEADLINE: Face.CODE,
    Role.NUMBER: Face.CODE,
    Role.WORDS: Face.PLAIN,
    Role.SMALL: Face.PLAIN,
}
