"""Finding: from a text to a part, a bin or a step; and all that is known of a part."""

from __future__ import annotations

from typing import TYPE_CHECKING

from starlette.responses import RedirectResponse

from inventory.core.parts.hardware import identify
from inventory.core.places import PlaceKind
from inventory.jobs.bench.looking_up import where
from inventory.jobs.bench.searching import search
from inventory.jobs.bench.undoing import history
from inventory.jobs.receiving.own_hardware import own_hardware
from inventory.jobs.receiving.photographs import photographs
from inventory.web.addresses import to
from inventory.web.showing import show_at
from inventory.web.visit import visit
from inventory.web.words import number_words

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

    from inventory.jobs.bench.scan_meaning import Meaning

ACTS_SHOWN = 12
_PLACES = {PlaceKind.BIN: "bin", PlaceKind.CRATE: "crate", PlaceKind.STEP: "step"}
_NAMED = {PlaceKind.BIN: "name", PlaceKind.CRATE: "crate", PlaceKind.STEP: "code"}


def find_page(request: Request) -> Response:
    """Show what a text may stand for; what it names exactly is opened at once."""
    at = visit(request)
    text = request.query_params.get("text", "").strip()[:100]
    found = search(at.bench, text) if text else None
    exact = _page_of(at.bench.kit.code, found.meant) if found and found.meant else ""
    if exact and len(found.parts if found else ()) <= 1:
        return RedirectResponse(exact, 303)
    return show_at(
        request, at, "find.html", title="Find", section="Find", text=text, found=found, exact=exact
    )


def _page_of(kit: str, meant: Meaning) -> str:
    """Return the page of what was named."""
    if meant.asked is not None:
        return to(kit, "part", number=meant.asked.part)
    if meant.place is not None and meant.place.kind in _PLACES:
        crate = meant.place.code.partition("/")[0]
        code = crate if meant.place.kind is PlaceKind.CRATE else meant.place.code
        return to(kit, _PLACES[meant.place.kind], **{_NAMED[meant.place.kind]: code})
    if meant.place is not None:
        return to(kit, "hold")
    return to(kit, "step", code=meant.text)


def part_page(request: Request) -> Response:
    """Show where a part lies, which steps take it, where it stands on the plans, and its past."""
    at = visit(request)
    seen = where(at.bench, request.query_params.get("number", ""))
    number = identify(seen.part.printed, own_hardware(at.bench.store.address).families)
    return show_at(
        request,
        at,
        "part.html",
        title=seen.part.printed,
        section="Find",
        seen=seen,
        meaning=number_words(number),
        pictures=[each for each in photographs(at.bench) if each.of.part == seen.part.key],
        acts=history(at.bench, seen.part.key)[:ACTS_SHOWN],
        pages=_PLACES,
        named=_NAMED,
    )
