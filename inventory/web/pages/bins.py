"""Bins: the map of all, one of them, and what is on hold."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.errors import NotFoundError
from inventory.core.places import PlaceKind
from inventory.documents.bin_map import Lying, MappedBin
from inventory.jobs.putting_away import in_bins
from inventory.jobs.searching import part_names
from inventory.jobs.undoing import history
from inventory.jobs.workshop_today import today
from inventory.web.drawings.bin_map import bin_map_svg
from inventory.web.showing import drawing, show_at
from inventory.web.visit import visit

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response


def bins_page(request: Request) -> Response:
    """Show which bins there are, where they stand, and what lies in them."""
    at = visit(request)
    bins = in_bins(at.bench)
    parts = part_names(at.bench)
    mapped = [
        MappedBin(
            shelf=shelf,
            name=place.code,
            contents=tuple(
                Lying(
                    part=parts[lies.item.part].printed,
                    quantity=str(lies.quantity),
                    hand=lies.item.hand,
                    description=parts[lies.item.part].description,
                )
                for lies in there
            ),
        )
        for place, shelf, there in bins
    ]
    now = today(at.bench)
    loose = [lies for lies in now.lying if lies.place.kind is PlaceKind.CRATE and lies.quantity > 0]
    return show_at(
        request,
        at,
        "bins.html",
        title="Bins",
        section="Bins",
        bins=mapped,
        loose=loose,
        picture=drawing(bin_map_svg(at.bench.kit.code, mapped)),
    )


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
    acts = [
        entry
        for entry in history(at.bench)
        if not entry.undone
        and any(move.destination.kind is PlaceKind.HOLD for move in entry.movements)
    ]
    return show_at(
        request,
        at,
        "hold.html",
        title="On hold",
        section="On hold",
        held=held,
        acts=acts,
        bins=[place.code for place, _, _ in in_bins(at.bench)],
    )
