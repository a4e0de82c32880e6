"""Cutting diagrams for the terminal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.documents.cut_bars import CutBar, left_over, left_words, placed_pieces, shown, title

if TYPE_CHECKING:
    from collections.abc import Iterable

_WIDE = 78


def cutting_text(bars: Iterable[CutBar]) -> str:
    """Return the diagrams in 80 columns: pieces by number, `#` is trim, `.` is left over."""
    every = list(bars)
    longest = max((bar.length for bar in every), default=1)
    return "\n\n".join(_bar(bar, longest) for bar in every)


def _bar(bar: CutBar, longest: int) -> str:
    """Return one bar and its marks."""
    rows = [
        (
            str(at.number),
            shown(bar, at.piece.length),
            shown(bar, at.start),
            shown(bar, at.end),
            " ".join(
                word for word in (at.piece.name, at.piece.step and f"({at.piece.step})") if word
            ),
        )
        for at in placed_pieces(bar)
    ]
    heads = ("", "length", "tape from", "to", "piece")
    widths = [max(len(row[place]) for row in [heads, *rows]) for place in range(4)]
    lines = [title(bar), _drawn(bar, longest)]
    lines += [
        "  ".join(
            [*(cell.rjust(width) for cell, width in zip(row[:4], widths, strict=True)), row[4]]
        )
        for row in [heads, *rows]
    ]
    lines.append(f"kerf {shown(bar, bar.kerf)}, {left_words(bar)}")
    return "\n".join(lines)


def _drawn(bar: CutBar, longest: int) -> str:
    """Return the bar as one line, to scale."""
    wide = max(3, round(_WIDE * bar.length / longest))
    row = ["-"] * wide

    def column(place: int) -> int:
        return min(wide - 1, place * wide // bar.length)

    for place in range(column(bar.front_trim)):
        row[place] = "#"
    first_left = bar.length - bar.back_trim - left_over(bar)
    if left_over(bar) or bar.back_trim:
        row[column(first_left) :] = "." * (wide - column(first_left))
    for at in placed_pieces(bar):
        start, end = column(at.start), column(at.end)
        number = str(at.number)
        if len(number) < end - start:
            middle = (start + end - len(number) + 1) // 2
            row[middle : middle + len(number)] = number
        row[end] = "|"
    return f"[{''.join(row)}]"
