"""Steps started, done and opened again over the network."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from inventory.jobs.bench.steps import done, reopen, start
from inventory.web.acts.act import Act, told
from inventory.web.fields import Field, Kind

if TYPE_CHECKING:
    from inventory.web.fields import Fields
    from inventory.web.visit import Visit

_STEP = Field("step", "The step's code.", needed=True)
_ANYWAY = Field("anyway", "Though steps before it aren't done.", Kind.YES)
_NOTE = Field("why", "Anything worth knowing.")


def _start(at: Visit, fields: Fields) -> dict[str, Any]:
    slip = at.slip(fields.text("why"))
    step = start(at.bench, fields.text("step"), slip, anyway=fields.yes("anyway"))
    return told(f"step {step.code} is started")


def _done(at: Visit, fields: Fields) -> dict[str, Any]:
    use = done(
        at.bench,
        fields.text("step"),
        at.slip(fields.text("why")),
        anyway=fields.yes("anyway"),
        short=fields.yes("even_if_short"),
    )
    used = [f"{each.quantity} x {each.item.part} from {each.place}" for each in use.fetches]
    return told(f"step {use.step.code} is done", *used)


def _reopen(at: Visit, fields: Fields) -> dict[str, Any]:
    step = reopen(at.bench, fields.text("step"), at.slip(fields.text("why")))
    return told(f"step {step.code} is open again; what was issued to it stays there")


STEPS = (
    Act("start-step", "Record that work on a step began.", (_STEP, _ANYWAY, _NOTE), _start),
    Act(
        "finish-step",
        "Record a step as done, and as issued all that wasn't issued yet.",
        (
            _STEP,
            _ANYWAY,
            Field("even_if_short", "Record only what lies in the bins.", Kind.YES),
            _NOTE,
        ),
        _done,
    ),
    Act("reopen-step", "Open a step again.", (_STEP, _NOTE), _reopen),
)
