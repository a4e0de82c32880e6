"""The plan: the drawing of all steps, one step, and what is short."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from starlette.responses import Response

from inventory.core.places import PlaceKind
from inventory.core.planning.ready import Readiness, steps_ready
from inventory.jobs.bench.looking_up import short
from inventory.jobs.bench.steps import use_of
from inventory.jobs.planning.workshop_today import today
from inventory.web.drawings.plan import plan_svg
from inventory.web.drawings.short import forecast_svg, ranking_svg
from inventory.web.drawings.standalone import standalone
from inventory.web.short_parts import short_parts
from inventory.web.showing import drawing, show_at
from inventory.web.visit import looking, visit

if TYPE_CHECKING:
    from starlette.requests import Request

    from inventory.web.visit import Visit

SIZES = {"whole": 0.0, "smaller": 0.6, "real": 1.0}
"""Scale of the drawing; 0 fits it to the page."""


def plan_page(request: Request) -> Response:
    """Show every step with how far it is, as a drawing and as a table."""
    at = visit(request)
    now = today(at.bench)
    steps = steps_ready(now.netting, now.workshop)
    said = request.query_params.get("size", "")
    size = said if said in SIZES else "real"
    chosen = request.query_params.get("state", "")
    many = Counter(each.readiness for each in steps)
    return show_at(
        request,
        at,
        "plan.html",
        title="Plan",
        section="Plan",
        steps=steps,
        size=size,
        chosen=chosen if chosen in {each.name.lower() for each in many} else "",
        states=[(each, many[each]) for each in Readiness if many[each]],
        picture=drawing(plan_svg(at.bench.kit.code, steps, SIZES[size])),
    )


def plan_picture(request: Request) -> Response:
    """Return the drawing of the plan alone, to be zoomed, kept or printed."""
    at = visit(request)
    now = today(at.bench)
    steps = steps_ready(now.netting, now.workshop)
    return Response(standalone(plan_svg(at.bench.kit.code, steps, 1.0)), media_type="image/svg+xml")


def step_page(request: Request) -> Response:
    """Show what a step needs, where it lies, and what is short."""
    with looking(request) as at:
        return _step_at(request, at)


def _step_at(request: Request, at: Visit) -> Response:
    now = today(at.bench)
    step = now.step(request.query_params.get("code", ""))
    ready = next(
        each for each in steps_ready(now.netting, now.workshop) if each.step.code == step.code
    )
    issued = [
        lies
        for lies in now.lying
        if lies.place.kind is PlaceKind.STEP and lies.place.code == step.code
    ]
    return show_at(
        request,
        at,
        "step.html",
        title=f"Step {step.code}",
        section="Plan",
        step=step,
        ready=ready,
        needs=now.netting.of_step(step.code),
        lacking=short(at.bench, step.code),
        use=use_of(at.bench, step.code),
        issued=issued,
        later=[each.code for each in now.plan.steps if step.code in each.after],
    )


def short_page(request: Request) -> Response:
    """Show what is short: which steps it stops, and what is promised by when."""
    at = visit(request)
    parts = short_parts(short(at.bench).short)
    return show_at(
        request,
        at,
        "short.html",
        title="Short",
        section="Short",
        parts=parts,
        ranking=drawing(ranking_svg(at.bench.kit.code, parts)),
        forecast=drawing(forecast_svg(parts, at.today)),
    )
