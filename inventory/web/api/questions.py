"""Questions that a program may ask of a kit, each with the shape of its answer."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.planning.ready import steps_ready
from inventory.jobs.bench.looking_up import short, step_needs, where
from inventory.jobs.bench.putting_away import in_bins
from inventory.jobs.bench.undoing import history, newest_acts
from inventory.jobs.overview import overview
from inventory.jobs.planning.workshop_today import today
from inventory.jobs.receiving.crate_sheet import crate_sheet
from inventory.jobs.receiving.receiving import crates
from inventory.web.api import views
from inventory.web.api.question import Question
from inventory.web.api.receiving_questions import RECEIVING
from inventory.web.api.shapes import (
    DAY,
    HAND,
    LYING,
    MOVE,
    NEED,
    NETTED,
    TEXT,
    WHOLE,
    YES,
    many,
    maybe,
    record,
)
from inventory.web.api.workshop_questions import WORKSHOP

if TYPE_CHECKING:
    from collections.abc import Mapping

    from inventory.web.api.views import Document
    from inventory.web.visit import Visit

MOST_ACTS = 100


def _overview(at: Visit, _said: Mapping[str, str]) -> Document:
    seen = overview(at.bench)
    counts = ("lists", "lines", "crates", "crates_closed", "bins", "steps", "steps_done", "acts")
    numbers = {name: getattr(seen, name) for name in counts}
    return {"kit": seen.kit.name, "code": seen.kit.code, **numbers}


def _crates(at: Visit, _said: Mapping[str, str]) -> list[Document]:
    return [
        {
            "crate": each.crate,
            "state": each.state,
            "lines": each.lines,
            "counted": each.counted,
            "counted_twice": each.counted_twice,
        }
        for each in crates(at.bench)
    ]


def _crate(at: Visit, said: Mapping[str, str]) -> Document:
    sheet = crate_sheet(at.bench, said["crate"])
    lines = [each for row in sheet.rows for each in row.lines]
    return {
        "crate": sheet.crate,
        "state": sheet.state,
        "lines": [
            {
                "part": each.line.part,
                "printed": each.line.printed,
                "hand": each.line.hand.value,
                "bag": each.line.bag,
                "shipped": each.line.shipped,
                "counted": each.pieces if each.counts else None,
                "damaged": each.damaged,
                "wrong": each.wrong,
                "by": each.by,
            }
            for each in lines
        ],
    }


def _part(at: Visit, said: Mapping[str, str]) -> Document:
    seen = where(at.bench, said["number"])
    return {
        "part": seen.part.key,
        "printed": seen.part.printed,
        "description": seen.part.description,
        "lying": [views.lies(each.place, each.item, each.quantity) for each in seen.lying],
        "needs": [{"need": views.need(each.need), "set_aside": each.pieces} for each in seen.steps],
    }


def _bins(at: Visit, said: Mapping[str, str]) -> list[Document]:
    return [
        {
            "bin": place.code,
            "shelf": shelf,
            "lying": [views.lies(each.place, each.item, each.quantity) for each in there],
        }
        for place, shelf, there in in_bins(at.bench, said.get("name", ""))
    ]


def _plan(at: Visit, _said: Mapping[str, str]) -> list[Document]:
    now = today(at.bench)
    return [
        {
            "step": each.step.code,
            "title": each.step.title,
            "section": each.step.section,
            "after": list(each.step.after),
            "readiness": each.readiness.value,
            "started": each.started,
            "waits_for": list(each.waits_for),
        }
        for each in steps_ready(now.netting, now.workshop)
    ]


def _step(at: Visit, said: Mapping[str, str]) -> Document:
    step, needs = step_needs(at.bench, said["code"])
    return {"step": step.code, "title": step.title, "needs": [views.netted(each) for each in needs]}


def _short(at: Visit, _said: Mapping[str, str]) -> list[Document]:
    return [views.netted(each) for each in short(at.bench).short]


def _history(at: Visit, said: Mapping[str, str]) -> list[Document]:
    part, step = said.get("part", ""), said.get("step", "")
    asked = part or step
    entries = history(at.bench, part, step) if asked else newest_acts(at.bench, MOST_ACTS)
    return [
        {
            "act": entry.recorded.id,
            "what": entry.recorded.act,
            "day": entry.recorded.slip.happened_on.isoformat(),
            "person": entry.recorded.slip.person,
            "device": entry.recorded.slip.device,
            "note": entry.recorded.slip.note,
            "undone": entry.undone,
            "undoes": entry.recorded.undoes,
            "moved": [views.move(each) for each in entry.movements],
        }
        for entry in entries[:MOST_ACTS]
    ]


_NUMBERS = ("lists", "lines", "crates", "crates_closed", "bins", "steps", "steps_done", "acts")
_OVERVIEW = record(kit=TEXT, code=TEXT, **dict.fromkeys(_NUMBERS, WHOLE))
_CRATE = record(crate=TEXT, state=TEXT, lines=WHOLE, counted=WHOLE, counted_twice=WHOLE)
_LINE = record(
    part=TEXT, printed=TEXT, hand=HAND, bag=TEXT, shipped=WHOLE, counted=maybe(WHOLE),
    damaged=WHOLE, wrong=WHOLE, by=TEXT,
)  # fmt: skip
_PART = record(
    part=TEXT, printed=TEXT, description=TEXT, lying=many(LYING),
    needs=many(record(need=NEED, set_aside=WHOLE)),
)  # fmt: skip
_STEP = record(
    step=TEXT, title=TEXT, section=TEXT, after=many(TEXT), readiness=TEXT, started=YES,
    waits_for=many(TEXT),
)  # fmt: skip
_ACT = record(
    act=WHOLE, what=TEXT, day=DAY, person=TEXT, device=TEXT, note=TEXT, undone=YES,
    undoes=maybe(WHOLE), moved=many(MOVE),
)  # fmt: skip

QUESTIONS = {
    each.name: each
    for each in (
        Question("overview", "The kit in numbers.", {}, _OVERVIEW, _overview),
        Question("crates", "How far each crate is counted.", {}, many(_CRATE), _crates),
        Question(
            "crate", "One crate, line by line.", {"crate": "Crate, as `1 OF 3` or `1`."},
            record(crate=TEXT, state=TEXT, lines=many(_LINE)), _crate, ("crate",),
        ),
        *RECEIVING,
        Question(
            "part", "Where a part lies, and which steps take it.",
            {"number": "Part number as printed."}, _PART, _part, ("number",),
        ),
        Question(
            "bins", "What lies in each bin.", {"name": "One bin only."},
            many(record(bin=TEXT, shelf=TEXT, lying=many(LYING))), _bins,
        ),
        Question("plan", "Every step with how far it is.", {}, many(_STEP), _plan),
        Question(
            "step", "What a step needs, netted in build order.", {"code": "The step's code."},
            record(step=TEXT, title=TEXT, needs=many(NETTED)), _step, ("code",),
        ),
        Question("short", "What is short, in build order.", {}, many(NETTED), _short),
        Question(
            "history", f"The newest {MOST_ACTS} acts, newest first.",
            {"part": "Only acts that moved it.", "step": "Only acts that moved to it."},
            many(_ACT), _history,
        ),
        *WORKSHOP,
    )
}  # fmt: skip
