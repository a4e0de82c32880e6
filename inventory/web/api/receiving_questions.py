"""Questions about what came: deliveries, findings, and whom to tell by when."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.jobs.receiving.claiming import claims
from inventory.jobs.receiving.deliveries import deliveries
from inventory.jobs.receiving.receiving import found
from inventory.web.api.question import Question
from inventory.web.api.shapes import DAY, HAND, TEXT, WHOLE, YES, many, maybe, record
from inventory.web.api.views import day

if TYPE_CHECKING:
    from collections.abc import Mapping

    from inventory.core.receiving.deadlines import Deadline
    from inventory.core.receiving.delivery import Delivery
    from inventory.core.receiving.findings import Finding
    from inventory.jobs.receiving.claiming import ClaimToday
    from inventory.web.api.views import Document
    from inventory.web.visit import Visit

_TEXTS = (
    "supplier", "carrier", "carriage", "sale", "order", "invoice", "bill_of_lading", "pro_number",
    "place", "country", "region", "seals",
)  # fmt: skip
_NUMBERS = ("packages_advised", "packages_counted")
_FINDING = record(
    kind=TEXT, to=TEXT, part=TEXT, hand=HAND, crate=TEXT, bag=TEXT, listed=WHOLE, counted=WHOLE,
    pieces=WHOLE, words=TEXT,
)  # fmt: skip
_DEADLINE = record(
    matter=TEXT, rule=TEXT, form=TEXT, if_missed=TEXT, last=maybe(DAY), send_by=maybe(DAY)
)
_CLAIM = record(
    to=TEXT, delivery=maybe(WHOLE), days_left=maybe(WHOLE), told=YES, report=maybe(WHOLE),
    deadlines=many(_DEADLINE), findings=many(_FINDING),
)  # fmt: skip
_EXCEPTION = record(crate=TEXT, state=TEXT, words=TEXT, on_receipt=YES)
_DELIVERY = record(
    delivery=WHOLE, delivered_on=maybe(DAY), late=YES, **dict.fromkeys(_TEXTS, TEXT),
    **dict.fromkeys(_NUMBERS, WHOLE), lists=many(WHOLE), exceptions=many(_EXCEPTION),
)  # fmt: skip


def _finding(one: Finding) -> Document:
    return {
        "kind": one.kind.value,
        "to": one.addressee.value,
        "part": one.part,
        "hand": one.hand.value,
        "crate": one.crate,
        "bag": one.bag,
        "listed": one.listed,
        "counted": one.counted,
        "pieces": one.pieces,
        "words": one.words,
    }


def _findings(at: Visit, said: Mapping[str, str]) -> list[Document]:
    return [_finding(one) for one in found(at.bench, said.get("crate", ""))]


def _claims(at: Visit, _said: Mapping[str, str]) -> list[Document]:
    return [_claim(each) for each in claims(at.bench, at.today)]


def _claim(each: ClaimToday) -> Document:
    return {
        "to": each.claim.addressee.value,
        "delivery": each.delivery.number if each.delivery else None,
        "days_left": each.claim.days_left,
        "told": each.told,
        "report": each.report.number if each.report else None,
        "deadlines": [_deadline(one) for one in each.claim.deadlines],
        "findings": [_finding(one) for one in each.claim.findings],
    }


def _deadline(one: Deadline) -> Document:
    return {
        "matter": one.rule.matter,
        "rule": one.rule.article,
        "form": one.rule.form,
        "if_missed": one.rule.missed,
        "last": day(one.last),
        "send_by": day(one.send_by),
    }


def _deliveries(at: Visit, _said: Mapping[str, str]) -> list[Document]:
    return [_delivery(each) for each in deliveries(at.bench)]


def _delivery(each: Delivery) -> Document:
    return {
        "delivery": each.number,
        "delivered_on": day(each.facts.delivered_on),
        "late": each.facts.late,
        **{name: getattr(each.facts, name) for name in (*_TEXTS, *_NUMBERS)},
        "lists": list(each.lists),
        "exceptions": [
            {
                "crate": one.crate,
                "state": one.state.value,
                "words": one.words,
                "on_receipt": one.on_receipt,
            }
            for one in each.exceptions
        ],
    }


RECEIVING = (
    Question(
        "findings", "What differs between list and counts, the worst first.",
        {"crate": "Of one crate only."}, many(_FINDING), _findings,
    ),
    Question("claims", "Whom to tell what by when, the most urgent first.", {}, many(_CLAIM),
             _claims),
    Question("deliveries", "What came by whom, and what was wrong with it.", {}, many(_DELIVERY),
             _deliveries),
)  # fmt: skip
