"""Typefaces that are embedded in every PDF: which glyph is in which, and how wide text runs."""

from __future__ import annotations

import unicodedata
from enum import StrEnum
from functools import cache, lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from reportlab.pdfbase.ttfonts import TTFont

_FOLDER = Path(__file__).parent / "typefaces"


class Face(StrEnum):
    """The typefaces of the package; the value is the file's name."""

    CODE = "DejaVuSansMono-Bold"
    """Numbers and codes: each character as wide as the next, zero unlike O, one unlike I."""
    PLAIN = "DejaVuSans"
    BOLD = "DejaVuSans-Bold"
    WIDE_COVER = "wqy-microhei"
    """Chinese, Japanese and Korean characters, which the others lack."""


CAP_HEIGHT = 0.729
"""Height of a capital over the type size in CODE, PLAIN and BOLD (their OS/2 table: 1493/2048)."""
CODE_WIDTH = 0.602
"""Advance of every character of CODE over the type size (1233/2048)."""
DESCENT = 0.236
"""How far letters such as g hang below the line, over the type size (hhea table: 483/2048)."""


@cache
def font(face: Face) -> TTFont:
    """Return the font, read from the package once and made known to reportlab."""
    from reportlab.pdfbase.pdfmetrics import registerFont  # noqa: PLC0415  # 70 ms
    from reportlab.pdfbase.ttfonts import TTFont  # noqa: PLC0415

    (path,) = _FOLDER.glob(f"{face.value}.tt?")
    read = TTFont(face.value, str(path), asciiReadable=True)
    registerFont(read)
    return read


@cache
def _advances(face: Face) -> Mapping[str, float]:
    """Return the width of each ASCII character over the type size."""
    widths: Mapping[int, float] = font(face).face.charWidths
    return {chr(code): widths[code] / 1000 for code in range(32, 127)}


@lru_cache(maxsize=8192)
def width(text: str, face: Face) -> float:
    """Return how wide a line runs, over the type size."""
    if text.isascii() and text.isprintable():
        return sum(map(_advances(face).__getitem__, text))
    return sum(
        float(font(used).face.charWidths[ord(character)]) / 1000
        for used, run in runs(text, face)
        for character in run
    )


def tidy(text: str) -> str:
    """Return the line with letters and accents composed, and every blank a single space."""
    return " ".join(unicodedata.normalize("NFC", text).split())


def runs(text: str, face: Face) -> Sequence[tuple[Face, str]]:
    """Return the line cut where the typeface has to change.

    A character that no typeface has is written as its code point, `<U+0E01>`.
    """
    pieces: list[tuple[Face, str]] = []
    for character in tidy(text):
        used = _holder(character, face)
        written = character if used else _code_point(character)
        used = used or face
        if pieces and pieces[-1][0] is used:
            pieces[-1] = (used, pieces[-1][1] + written)
        else:
            pieces.append((used, written))
    return pieces


def missing(text: str) -> tuple[str, ...]:
    """Say in words which characters can't be printed, each once, in the order they come.

    Scripts whose letters join or reorder (Arabic, Indic, Thai) count as missing, since their
    single glyphs would be wrong side by side.
    """
    lost = dict.fromkeys(
        character for character in tidy(text) if _holder(character, Face.PLAIN) is None
    )
    return tuple(
        f"{_code_point(character)[1:-1]} {unicodedata.name(character, 'without a name')}"
        for character in lost
    )


def _code_point(character: str) -> str:
    """Return how a character without a glyph is written."""
    return f"<U+{ord(character):04X}>"


@lru_cache(maxsize=8192)
def _holder(character: str, face: Face) -> Face | None:
    """Return the first typeface that has a glyph for the character."""
    if unicodedata.bidirectional(character) in {"R", "AL"} or unicodedata.category(character) in {
        "Cc",
        "Cf",
        "Mn",
        "Co",
    }:
        return None
    for used in (face, Face.PLAIN, Face.WIDE_COVER):
        if ord(character) in font(used).face.charToGlyph:
            return used
    return None
