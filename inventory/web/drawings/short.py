"""What is short: ranked by the steps it stops, and when promised deliveries reach them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.counted import counted
from inventory.web.addresses import to
from inventory.web.drawings.marks import (
    Spot,
    box,
    link,
    number,
    path,
    short_words,
    svg,
    text,
)
from inventory.web.words import hand_word

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Sequence

    from inventory.web.short_parts import ShortPart

WIDE = 360.0
ROW = 66.0
MOST = 40
"""Rows of a drawing; the table beside has all."""
_DAYS = 14
_AXIS = 40.0
_PROMISE = 46.0


def ranking_svg(kit: str, parts: Sequence[ShortPart]) -> str:
    """Return a bar for each short part, as long as the number of steps it stops."""
    most = max((len(each.steps) for each in parts), default=1)
    marks = [
        _row(kit, each, place * ROW, WIDE * len(each.steps) / most)
        for place, each in enumerate(parts[:MOST])
    ]
    title = f"Shortages: {counted(len(parts), 'part')}, by the number of steps each stops"
    return svg((WIDE, max(1.0, len(marks) * ROW)), title, marks)


def _row(kit: str, part: ShortPart, y: float, bar: float) -> str:
    name = f"{part.printed} {hand_word(part.hand)}".strip()
    stops = f"stops {counted(len(part.steps), 'step')}"
    steps = f"{part.short} short for {', '.join(part.steps)}"
    inner = [
        number(0, y + 18, name, WIDE - 110),
        text(WIDE, y + 18, stops, "strong end"),
        box(Spot(0, y + 24, bar, 12), "full"),
        text(0, y + 52, short_words(steps, WIDE, 7.0), "small"),
    ]
    return link(to(kit, "part", number=part.part), inner)


def forecast_svg(parts: Sequence[ShortPart], today: dt.date) -> str:
    """Return a line of days with the promise of each short part on it; undated ones apart.

    A range is a bar from its early to its late end. Nobody's promise is moved or guessed.
    """
    dated = sorted(
        ((due.promised, due.latest or due.promised, each) for each in parts for due in each.due
         if due.promised is not None),
        key=lambda row: (row[0], row[1]),
    )  # fmt: skip
    shown = dated[:MOST]
    last = max([today, *(late for _, late, _ in shown)])
    first = min([today, *(early for early, _, _ in shown)])
    scale = WIDE / max((last - first).days, _DAYS)
    marks = _axis((today - first).days * scale, today, len(shown))
    for place, (early, late, part) in enumerate(shown):
        x, wide = (early - first).days * scale, (late - early).days * scale
        marks += _promise(part, Spot(x, _AXIS + place * _PROMISE, wide, 10), late)
    undated = sum(not any(due.promised for due in each.due) for each in parts)
    y = _AXIS + len(shown) * _PROMISE + 16
    marks.append(text(0, y, f"{counted(undated, 'short part')} without a promised day", "strong"))
    return svg((WIDE, y + 14), "Forecast: when promised deliveries reach the steps", marks)


def _axis(x: float, today: dt.date, rows: int) -> list[str]:
    side = "small end" if x > WIDE / 2 else "small"
    return [
        path(f"M0 26H{WIDE:g}", "line"),
        path(f"M{x:g} 16V{_AXIS + rows * _PROMISE:g}", "hairline"),
        text(x, 12, f"today {today.isoformat()}", side),
    ]


def _promise(part: ShortPart, bar: Spot, late: dt.date) -> list[str]:
    name = f"{part.printed} {hand_word(part.hand)}".strip()
    x = min(max(bar.x, 8.0), WIDE - 8.0)
    words = f"{late.isoformat()}, {counted(len(part.steps), 'step')}"
    return [
        number(0, bar.y + 12, name, WIDE - 150),
        text(WIDE, bar.y + 12, words, "small end"),
        box(Spot(bar.x, bar.y + 20, bar.width, bar.height), "part"),
        path(f"M{x:g} {bar.y + 17:g}l8 8-8 8-8-8z", "full"),
    ]
