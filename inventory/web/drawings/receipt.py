"""How far each crate is counted: one bar for each, filled by lines counted once and twice."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.web.drawings.marks import Spot, box, path, short_words, svg, text

if TYPE_CHECKING:
    from collections.abc import Sequence

    from inventory.jobs.receiving.receiving import CrateState

WIDE = 360.0
ROW = 56.0
_BAR = Spot(0, 26, WIDE, 20)


def receipt_svg(crates: Sequence[CrateState]) -> str:
    """Return a bar for each crate: full where counted, notched where counted twice."""
    marks: list[str] = []
    for place, crate in enumerate(crates):
        marks += _crate(crate, place * ROW)
    told = "; ".join(
        f"crate {each.crate}: {each.counted} of {each.lines} lines counted, {each.state}"
        for each in crates
    )
    return svg((WIDE, max(ROW, len(crates) * ROW)), f"Receipt progress. {told}", marks)


def _crate(crate: CrateState, y: float) -> list[str]:
    once = WIDE * crate.counted / crate.lines if crate.lines else 0.0
    twice = WIDE * crate.counted_twice / crate.lines if crate.lines else 0.0
    words = f"{crate.counted} of {crate.lines}, {crate.state}"
    bar = Spot(0, y + _BAR.y, WIDE, _BAR.height)
    notches = "".join(
        f"M{x:g} {bar.y + bar.height:g}v-8" for x in _steps(twice, WIDE / max(1, crate.lines))
    )
    return [
        text(0, y + 18, short_words(f"Crate {crate.crate}", WIDE / 2), "strong"),
        text(WIDE, y + 18, words, "end"),
        box(bar),
        box(Spot(0, bar.y, once, bar.height), "full"),
        path(notches, "tick") if notches else "",
    ]


def _steps(end: float, wide: float) -> list[float]:
    """Return a mark for each line counted twice, at most one for each eight units."""
    step = max(wide, 8.0)
    return [step * number for number in range(1, int(end / step) + 1)]
