"""The whole plan as a precedence drawing: lanes of sections, states by shape and word."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.counted import counted
from inventory.core.planning.ready import Readiness
from inventory.web.addresses import to
from inventory.web.drawings.marks import Spot, box, link, path, short_words, svg, text
from inventory.web.drawings.plan_layout import plan_layout
from inventory.web.drawings.readiness import sign

if TYPE_CHECKING:
    from collections.abc import Sequence

    from inventory.core.planning.ready import StepReady
    from inventory.web.drawings.plan_layout import Lane, PlanLayout

_STEP = Spot(0, 0, 190, 58)
_GAP = 44.0
_ROW = 74.0
_HEAD = 30.0
_EDGE = 14.0
_SHORT_STATE = {
    Readiness.READY_ALONE: "ready?",
    Readiness.PREPARE: "prepare",
    Readiness.PARTIAL: "begin",
}


def plan_svg(kit: str, steps: Sequence[StepReady], scale: float = 0) -> str:
    """Return all steps in lanes of their sections; each leads to its page."""
    layout = plan_layout([each.step for each in steps])
    marks: list[str] = []
    for number, lane in enumerate(layout.lanes):
        marks += _lane(layout, lane, number)
    spots = {each.step.code: _spot(layout, each.step.code) for each in steps}
    joined = "".join(_join(spots[first], spots[then]) for first, then in layout.joins)
    marks.append(path(joined, "hairline"))
    marks += [_step(kit, each, spots[each.step.code]) for each in steps]
    width = _EDGE * 2 + layout.width * (_STEP.width + _GAP)
    height = layout.height * _ROW + len(layout.lanes) * _HEAD
    done = sum(each.readiness is Readiness.DONE for each in steps)
    title = f"Plan: {counted(len(steps), 'step')}, {done} done"
    return svg((max(width, 1), max(height, 1)), title, marks, scale)


def _spot(layout: PlanLayout, code: str) -> Spot:
    row = layout.rows[code]
    heads = sum(lane.top <= row for lane in layout.lanes)
    x = _EDGE + layout.columns[code] * (_STEP.width + _GAP)
    return Spot(x, row * _ROW + heads * _HEAD, _STEP.width, _STEP.height)


def _lane(layout: PlanLayout, lane: Lane, number: int) -> list[str]:
    y = lane.top * _ROW + number * _HEAD
    wide = _EDGE * 2 + layout.width * (_STEP.width + _GAP)
    return [
        path(f"M0 {y:g}H{wide:g}", "hairline"),
        text(_EDGE, y + 20, lane.section or "No section", "strong"),
    ]


def _join(first: Spot, then: Spot) -> str:
    """Return a line from the end of one step to the beginning of a later one."""
    x, y = first.x + first.width, first.y + first.height / 2
    end, at = then.x, then.y + then.height / 2
    bend = min(_GAP, (end - x) / 2)
    return f"M{x:g} {y:g}C{x + bend:g} {y:g} {end - bend:g} {at:g} {end:g} {at:g}"


def _step(kit: str, ready: StepReady, spot: Spot) -> str:
    step = ready.step
    state = _SHORT_STATE.get(ready.readiness, ready.readiness.value)
    if ready.started and ready.readiness is not Readiness.DONE:
        state = f"{state}, begun"
    inner = [
        box(spot, f"box {ready.readiness.name.lower()}"),
        sign(ready.readiness, spot.x + 17, spot.y + 18),
        text(spot.x + 34, spot.y + 23, short_words(step.code, 80, 9), "number"),
        text(spot.x + spot.width - 8, spot.y + 23, state, "small end"),
        text(spot.x + 10, spot.y + 46, short_words(step.title, spot.width - 16, 7.6)),
    ]
    return link(to(kit, "step", code=step.code), inner)
