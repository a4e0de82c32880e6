"""Claims over the network: the report to one side, and that it was sent."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from inventory.jobs.receiving.claim_answers import mark_sent
from inventory.jobs.receiving.letters import Addressee, Wording, report_for
from inventory.web.acts.act import Act, told
from inventory.web.fields import Field, Kind
from inventory.web.refusing import UnreadableError

if TYPE_CHECKING:
    from inventory.web.fields import Fields
    from inventory.web.visit import Visit

SIDES = (Addressee.CARRIER, Addressee.SUPPLIER)


def _write(at: Visit, fields: Fields) -> dict[str, Any]:
    side = fields.text("to")
    if side not in SIDES:
        raise UnreadableError(f"{side!r} is no side", where="to", remedy=" or ".join(SIDES))
    wording = Wording(
        recipient=_lines(fields.text("recipient")), sender=_lines(fields.text("sender"))
    )
    delivery = fields.pieces("delivery") if fields.text("delivery") else 0
    report = report_for(at.bench, Addressee(side), wording, at.slip(), delivery)
    return told(
        f"report {report.number} to the {report.addressee} is written",
        "Read it, send it, then say here by which way it went.",
    )


def _lines(address: str) -> str:
    return "\n".join(part.strip() for part in address.split(";") if part.strip())


def _sent(at: Visit, fields: Fields) -> dict[str, Any]:
    report = mark_sent(
        at.bench, fields.pieces("report"), fields.text("how"), fields.text("words"), at.slip()
    )
    return told(f"report {report.number} went to the {report.addressee} by {fields.text('how')}")


CLAIMS = (
    Act(
        "write-report",
        "Keep a numbered report of all that one side is to be told about a delivery.",
        (
            Field("to", "carrier or supplier.", needed=True),
            Field("delivery", "The delivery's number; empty where there is one only.", Kind.WHOLE),
            Field("recipient", "Name and address, lines parted by `;`; else as last time."),
            Field("sender", "Your name and address, lines parted by `;`; else as last time."),
        ),
        _write,
    ),
    Act(
        "report-sent",
        "Record that a report was sent today, and by which way.",
        (
            Field("report", "The report's number.", Kind.WHOLE, needed=True),
            Field("how", "By which way: e-mail, registered letter, ...", needed=True),
            Field("words", "Anything worth knowing."),
        ),
        _sent,
    ),
)
