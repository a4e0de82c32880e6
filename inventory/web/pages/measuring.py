"""An unmarked part: measured, compared with what is still to be found, held for one of them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.cautions import MEASURED
from inventory.core.measures.lengths import show_length
from inventory.jobs.receiving.crate_sheet import crate_sheet
from inventory.jobs.receiving.measured_parts import candidates
from inventory.web.acts.measuring import MEASURES, measured_of
from inventory.web.fields import HAND, from_form
from inventory.web.showing import show_at
from inventory.web.visit import looking

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

    from inventory.core.parts.measuring import Candidate
    from inventory.jobs.receiving.measured_parts import Candidates

SHOWN = 6
"""Candidates on a page: who has more, measures one thing more."""
NOT_ASKED = "no sizes are recorded"


def measure_page(request: Request) -> Response:
    """Show which open parts an unmarked one may be, the most likely first."""
    said = from_form((*MEASURES, HAND), request.query_params)
    with looking(request) as at:
        sheet = crate_sheet(at.bench, request.query_params.get("crate", ""))
        taken = any(said.text(each.name) for each in MEASURES)
        found = candidates(at.bench, measured_of(said), said.hand()) if taken else None
        ranked = found.ranking.candidates if found else ()
        return show_at(
            request,
            at,
            "measure.html",
            title="An unmarked part",
            section="Count",
            crate=sheet.crate,
            bag=request.query_params.get("bag", ""),
            said=said,
            found=found,
            questions=_questions(found) if found else (),
            likely=[(each, _off(each)) for each in ranked[:SHOWN]],
            caution=MEASURED,
        )


def _questions(found: Candidates) -> list[str]:
    return [each for each in found.questions if not each.startswith(NOT_ASKED)]


def _off(each: Candidate) -> str:
    off = [
        f"{one.dimension} {'-' if one.off < 0 else '+'}{show_length(abs(one.off))}"
        for one in each.deviations
    ]
    return ", ".join([*off, *([] if each.holes_off is None else [f"holes {each.holes_off:+d}"])])
