"""Cutting: which piece comes from which stick, drawn, and the record of a cut."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.measures.lengths import show_length
from inventory.documents.cut_bars import left_words, placed_pieces, shown, title
from inventory.documents.cut_sticks import StickToSaw, bar_of, patterns
from inventory.documents.cutting_svg import cutting_svg
from inventory.jobs.cutting.sticks import cut_plans
from inventory.jobs.cutting.words import bought_words, stick_words, uncut_words
from inventory.web.showing import drawing, show_at
from inventory.web.visit import visit

if TYPE_CHECKING:
    from markupsafe import Markup
    from starlette.requests import Request
    from starlette.responses import Response

    from inventory.documents.cut_bars import CutBar, Placed
    from inventory.jobs.cutting.sticks import ProfilePlan

UNITS = ("in", "ft", "mm")


@frozen
class ShownBar:
    """Sticks that are cut alike, with what a person reads on the tape."""

    bar: CutBar
    words: str
    rows: tuple[tuple[Placed, str, str, str], ...]
    """Each piece, its length, and the marks of its two ends."""
    left: str


@frozen
class ShownStick:
    """One planned stick that lies in a bin, as it is recorded once it is cut."""

    place: str
    lot: str
    hand: str
    length: str
    pieces: str


@frozen
class ShownProfile:
    """The plan of one stock part, in words and as a drawing."""

    part: str
    printed: str
    description: str
    bought: str
    uncut: tuple[str, ...]
    picture: Markup
    bars: tuple[ShownBar, ...]
    sticks: tuple[tuple[ShownStick, int], ...]
    """Sticks that are there, and how many are cut alike."""


def cutting_page(request: Request) -> Response:
    """Show how the sticks are cut for the steps that are open, or for one of them."""
    at = visit(request)
    step = request.query_params.get("step", "").strip()
    said = request.query_params.get("unit", "")
    unit = said if said in UNITS else UNITS[0]
    plans = cut_plans(at.bench, [step] if step else [], {})
    return show_at(
        request,
        at,
        "cutting.html",
        title=f"Cutting for {step}" if step else "Cutting",
        section="Cutting",
        step=step,
        unit=unit,
        units=UNITS,
        profiles=[_shown_profile(each, unit) for each in plans],
    )


def _shown_profile(profile: ProfilePlan, unit: str) -> ShownProfile:
    words = list(stick_words(profile))
    bars = patterns(bar_of(StickToSaw(*each), profile.needs, unit) for each in words)
    return ShownProfile(
        part=profile.part,
        printed=profile.printed,
        description=profile.description,
        bought=bought_words(profile),
        uncut=tuple(uncut_words(profile)),
        picture=drawing(cutting_svg(bars, styled=False)),
        bars=tuple(map(_shown_bar, bars)),
        sticks=_sticks(profile),
    )


def _shown_bar(bar: CutBar) -> ShownBar:
    rows = tuple(
        (at, shown(bar, at.piece.length), shown(bar, at.start), shown(bar, at.end))
        for at in placed_pieces(bar)
    )
    return ShownBar(bar, title(bar), rows, left_words(bar))


def _sticks(profile: ProfilePlan) -> tuple[tuple[ShownStick, int], ...]:
    found: dict[ShownStick, int] = {}
    for each in profile.sticks:
        if each.place is None or each.item is None or not each.stick.pieces:
            continue
        lengths: dict[int, int] = {}
        for piece in each.stick.pieces:
            lengths[piece.length] = lengths.get(piece.length, 0) + 1
        pieces = "; ".join(f"{number}x{show_length(one)}" for one, number in lengths.items())
        stick = ShownStick(
            each.place.code, each.item.lot, each.item.hand, show_length(each.item.length), pieces
        )
        found[stick] = found.get(stick, 0) + 1
    return tuple(found.items())
