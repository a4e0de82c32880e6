"""Scanning over the network: each line is a slip of its own, chained to the one before it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from inventory.jobs.answering import first_answer
from inventory.jobs.bench.scan_state import ScanState, kept, state_from
from inventory.jobs.bench.scanning import ScanSession
from inventory.web.acts.act import Act
from inventory.web.fields import Field, Kind
from inventory.web.refusing import UnreadableError

if TYPE_CHECKING:
    from inventory.jobs.acts import Bench
    from inventory.web.fields import Fields
    from inventory.web.visit import Visit


def _scan(at: Visit, fields: Fields) -> dict[str, Any]:
    session = ScanSession(at.bench, at.slip, at=state_after(at.bench, fields.text("after")))
    milliseconds = fields.text("at")
    clock = int(milliseconds) / 1000 if milliseconds else None
    verdict = session.scan(fields.values.get("text", ""), clock)
    return {
        "answer": verdict.answer.value,
        "words": [verdict.words],
        "remedy": verdict.remedy,
        "next": session.at.words,
        "state": kept(session.at),
    }


def state_after(bench: Bench, key: str) -> ScanState:
    """Return what was set after the scan of that slip; nothing is set at the beginning."""
    if not key:
        return ScanState()
    before = first_answer(bench, key)
    if before is None or "state" not in before.content:
        raise UnreadableError(
            "the scan before this one isn't in the record",
            where="after",
            remedy="Begin anew: scan the bin or the step.",
        )
    return state_from(before.content["state"])


SCANS = (
    Act(
        "scan",
        "Answer one scanned or typed line: bin, part, step, digits, UNDO, ...",
        (
            Field("text", "The line as the scanner sends it.", needed=True),
            Field("after", "Key of the scan before it; empty at the beginning."),
            Field("at", "Milliseconds by the device's own clock.", Kind.WHOLE),
        ),
        _scan,
    ),
)
