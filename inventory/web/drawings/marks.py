"""Marks that all drawings are made of; every word is escaped here and nowhere else."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.plain import plain

if TYPE_CHECKING:
    from collections.abc import Iterable

CHARACTER = 8.2
"""Width of a character of the drawings' type, at most; units of the drawing."""
WIDE_CHARACTER = 9.0
"""Of the type of part numbers."""


@frozen
class Spot:
    """A corner and the size of a field; units of the drawing."""

    x: float
    y: float
    width: float
    height: float


def svg(size: tuple[float, float], title: str, marks: Iterable[str], scale: float = 0) -> str:
    """Return a whole drawing; its title is what a screen reader says.

    It takes the width it is given, or `scale` times its own size. One that leads to pages is a
    group of links, not a picture: a picture's parts are hidden from screen readers.
    """
    width, height = size
    inside = "".join(marks)
    role = "group" if "<a " in inside else "img"
    fixed = f'width="{width * scale:g}" height="{height * scale:g}" ' if scale else ""
    return (
        f'<svg class="drawing" xmlns="http://www.w3.org/2000/svg" role="{role}" '
        f'{fixed}viewBox="0 0 {width:g} {height:g}"><title>{words(title)}</title>'
        f"{inside}</svg>"
    )


def words(text: str) -> str:
    """Return a text as it may stand in a drawing: nothing in it commands anything."""
    return escape(plain(text))


def text(x: float, y: float, said: str, kind: str = "") -> str:
    """Return words on their base line."""
    return f'<text x="{x:g}" y="{y:g}" class="{kind}">{words(said)}</text>'


def number(x: float, y: float, said: str, room: float, kind: str = "number") -> str:
    """Return a part number whole, drawn narrower where it is long: no sign of it is ever cut."""
    width = len(said) * WIDE_CHARACTER
    narrow = f' textLength="{room:g}" lengthAdjust="spacingAndGlyphs"' if width > room else ""
    return f'<text x="{x:g}" y="{y:g}" class="{kind}"{narrow}>{words(said)}</text>'


def box(spot: Spot, kind: str = "box") -> str:
    """Return a field; nothing where it has no width."""
    if spot.width <= 0:
        return ""
    return (
        f'<rect x="{spot.x:g}" y="{spot.y:g}" width="{spot.width:g}" height="{spot.height:g}" '
        f'class="{kind}"/>'
    )


def path(d: str, kind: str = "line") -> str:
    """Return a path."""
    return f'<path d="{d}" class="{kind}"/>'


def link(address: str, marks: Iterable[str]) -> str:
    """Return marks that lead to a page; their words are what a screen reader says."""
    return f'<a href="{escape(address)}">{"".join(marks)}</a>'


def short_words(said: str, room: float, character: float = CHARACTER) -> str:
    """Return words shortened in the middle so that they fit; the table beside has them whole."""
    most = max(5, int(room / character))
    if len(said) <= most:
        return said
    head = (most - 1) // 2
    return f"{said[:head]}…{said[-(most - 1 - head) :]}"
