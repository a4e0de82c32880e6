"""Text broken into lines of a given width; numbers and codes stay whole."""

from __future__ import annotations

import unicodedata
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from labels.typeface import CAP_HEIGHT, Face, tidy, width

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence


@frozen
class Type:
    """A typeface and the height of its capitals in millimetres."""

    face: Face
    cap: float
    lead: float = 1.75
    """From one base line to the next, over the height of the capitals."""

    @property
    def line(self) -> float:
        """Millimetres from one base line to the next."""
        return self.cap * self.lead

    def width(self, text: str) -> float:
        """Return how wide a line runs, in millimetres."""
        return width(text, self.face) / CAP_HEIGHT * self.cap


TITLE = Type(Face.BOLD, 4.6)
HEADING = Type(Face.BOLD, 2.9)
BIG_NUMBER = Type(Face.CODE, 3.2)
"""Part numbers and bins on papers that lie on the bench: read from half a metre with ease."""
NUMBER = Type(Face.CODE, 2.1)
STRONG = Type(Face.BOLD, 2.1)
PLAIN = Type(Face.PLAIN, 2.1)
"""The least height to be read from half a metre."""
SMALL = Type(Face.PLAIN, 1.6)


def wrapped(text: str, kind: Type, room: float) -> list[str]:
    """Return the text in lines no wider than `room` millimetres.

    It breaks at blanks and between characters of scripts that write without blanks; a word wider
    than the room is broken where it must.
    """
    lines: list[str] = []
    for paragraph in text.splitlines():
        line = ""
        for piece in _pieces(tidy(paragraph), kind, room):
            if line and kind.width((line + piece).rstrip()) > room:
                lines.append(line.rstrip())
                line = ""
            line += piece
        lines.append(line.rstrip())
    return lines or [""]


def one_line(text: str, kind: Type, room: float) -> str:
    """Return what fits on one line, with an ellipsis where something had to be left out."""
    if len(wrapped(text, kind, room)) == 1:
        return tidy(text)
    return f"{wrapped(text, kind, room - kind.width(' …'))[0]} …"


def _pieces(text: str, kind: Type, room: float) -> Iterator[str]:
    """Yield what may stand on a line of its own, each with the blank behind it."""
    for word in text.split(" "):
        for piece in _unblanked(word):
            yield from _broken(piece, kind, room)


def _unblanked(word: str) -> Sequence[str]:
    """Return a word's parts that may be separated, the last with a blank behind it."""
    parts: list[str] = []
    loose = True
    for character in word:
        wide = unicodedata.east_asian_width(character) in {"W", "F"}
        if loose or wide:
            parts.append(character)
        else:
            parts[-1] += character
        loose = wide
    return [*parts[:-1], f"{parts[-1]} "] if parts else [" "]


def _broken(piece: str, kind: Type, room: float) -> Iterator[str]:
    """Yield a piece whole where it fits, else in parts as long as the room allows."""
    while len(piece.rstrip()) > 1 and kind.width(piece.rstrip()) > room:
        keep = len(piece.rstrip()) - 1
        while keep > 1 and kind.width(piece[:keep]) > room:
            keep -= 1
        yield piece[:keep]
        piece = piece[keep:]
    yield piece
