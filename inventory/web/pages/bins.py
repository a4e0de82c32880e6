"""Bins: the map of all, one of them, and what is on hold."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from inventory.core.errors import NotFoundError
from inventory.core.places import PlaceKind
from inventory.documents.bin_map import Lying as LyingThere
from inventory.documents.bin_map import MappedBin
from inventory.jobs.bench.putting_away import in_bins
from inventory.jobs.bench.searching import part_names
from inventory.jobs.bench.undoing import history
from inventory.jobs.planning.workshop_today import today
from inventory.web.drawings.bin_map import bin_map_svg
from inventory.web.showing import drawing, show_at
from inventory.web.visit import visit
from inventory.web.words import quantities

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

    from inventory.core.items import Item
    from inventory.core.places import Place
    from inventory.web.visit import Visit

LOOSE_SHOWN = 100
REASONS_SHOWN = 3
WIDE_ACROSS = 5
"""Bins side by side where there is room."""


def bins_page(request: Request) -> Response:
    """Show which bins there are, where they stand, and what lies in them."""
    at = visit(request)
    kit = at.bench.kit.code
    mapped = _mapped(at)
    lying = today(at.bench).lying
    there = [lies for lies in lying if lies.place.kind is PlaceKind.CRATE and lies.quantity > 0]
    crates = dict.fromkeys(_crate(lies.place) for lies in there)
    return show_at(
        request,
        at,
        "bins.html",
        title="Bins",
        section="Bins",
        bins=mapped,
        things=sum(len(each.contents) for each in mapped),
        loose={crate: [lies for lies in there if _crate(lies.place) == crate] for crate in crates},
        most=LOOSE_SHOWN,
        narrow=drawing(bin_map_svg(kit, mapped)),
        wide=drawing(bin_map_svg(kit, mapped, WIDE_ACROSS)),
    )


def _crate(place: Place) -> str:
    """Return the crate of a place in it, its bag left out."""
    return place.code.partition("/")[0]


def _mapped(at: Visit) -> list[MappedBin]:
    parts, much = part_names(at.bench), quantities(at.bench)
    return [
        MappedBin(
            shelf=shelf,
            name=place.code,
            contents=tuple(
                LyingThere(
                    part=parts[lies.item.part].printed,
                    quantity=much(lies.item, lies.quantity),
                    hand=lies.item.hand,
                    description=parts[lies.item.part].description,
                )
                for lies in there
            ),
        )
        for place, shelf, there in in_bins(at.bench)
    ]


def bin_page(request: Request) -> Response:
    """Show what lies in one bin, with the acts that move it."""
    at = visit(request)
    name = request.query_params.get("name", "")
    found = in_bins(at.bench, name) if name else []
    if not found:
        raise NotFoundError("which bin?", remedy="Choose one of the map.")
    place, shelf, lying = found[0]
    return show_at(
        request,
        at,
        "bin.html",
        title=f"Bin {place.code}",
        section="Bins",
        place=place,
        shelf=shelf,
        lying=lying,
        others=[other.code for other, _, _ in in_bins(at.bench) if other != place],
    )


def hold_page(request: Request) -> Response:
    """Show what is on hold, and why."""
    at = visit(request)
    held = [
        lies
        for lies in today(at.bench).lying
        if lies.place.kind is PlaceKind.HOLD and lies.quantity > 0
    ]
    return show_at(
        request,
        at,
        "hold.html",
        title="On hold",
        section="On hold",
        held=held,
        reasons=_reasons(at),
        bins=[place.code for place, _, _ in in_bins(at.bench)],
    )


def _reasons(at: Visit) -> defaultdict[Item, list[str]]:
    """Return why pieces of each item were held, the newest first."""
    reasons: defaultdict[Item, list[str]] = defaultdict(list)
    for entry in history(at.bench):
        slip = entry.recorded.slip
        words = f"{slip.happened_on} {slip.person}: {slip.note or entry.recorded.act}"
        for move in () if entry.undone else entry.movements:
            if move.destination.kind is PlaceKind.HOLD and len(reasons[move.item]) < REASONS_SHOWN:
                reasons[move.item].append(words)
    return reasons
