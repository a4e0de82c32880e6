"""Deliveries over the network: what is known of one, and what is wrong with a package."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from inventory.core.errors import InventoryError
from inventory.core.receiving.counts import read_pieces
from inventory.core.receiving.delivery import PackageException, PackageState
from inventory.jobs.receiving.deliveries import add_lists, except_package, record_delivery
from inventory.web.acts.act import Act, told
from inventory.web.fields import Field, Kind

if TYPE_CHECKING:
    from inventory.core.receiving.delivery import DeliveryFacts
    from inventory.web.fields import Fields
    from inventory.web.visit import Visit

_TEXTS = ("supplier", "carrier", "carriage", "sale", "order", "invoice", "bill_of_lading",
          "pro_number", "place", "country", "region", "seals")  # fmt: skip
_NUMBERS = ("packages_advised", "packages_counted")


def _record(at: Visit, fields: Fields) -> dict[str, Any]:
    said: dict[str, Any] = {name: fields.text(name) for name in _TEXTS if fields.text(name)}
    said |= {name: fields.pieces(name) for name in _NUMBERS if fields.text(name)}
    day = fields.day("delivered_on")
    if day:
        said["delivered_on"] = day
    if fields.yes("late"):
        said["late"] = True
    for name in ("country", "region"):
        if name in said:
            said[name] = said[name].upper()

    def change(before: DeliveryFacts) -> DeliveryFacts:
        return replace(before, **said)

    number = fields.pieces("delivery") if fields.text("delivery") else 0
    delivery = record_delivery(at.bench, change, at.slip(fields.text("why")), number)
    return told(f"delivery {delivery.number} is recorded")


def _except(at: Visit, fields: Fields) -> dict[str, Any]:
    state = fields.text("state") or PackageState.OTHER.value
    if state not in set(PackageState):
        raise InventoryError(f"{state!r} is no state of a package", remedy=", ".join(PackageState))
    said = PackageException(
        crate=fields.text("crate"),
        state=PackageState(state),
        words=fields.text("words"),
        on_receipt=fields.yes("on_receipt"),
    )
    number = fields.pieces("delivery")
    named = except_package(at.bench, number, said, at.slip())
    about = f"crate {named.crate}: " if named.crate else ""
    paper = "" if named.on_receipt else "Write it on BOTH copies of the driver's paper too."
    return told(f"recorded of delivery {number}: {about}{named.words}", *filter(None, [paper]))


def _tie(at: Visit, fields: Fields) -> dict[str, Any]:
    said = fields.text("lists").replace(",", " ").split()
    lists = [read_pieces(each) for each in said]
    if not lists:
        raise InventoryError("which packing list?", remedy="Say its number.")
    delivery = add_lists(at.bench, fields.pieces("delivery"), lists, at.slip())
    return told(f"with delivery {delivery.number} came list {', '.join(map(str, lists))}")


DELIVERIES = (
    Act(
        "record-delivery",
        "Record a delivery, or what is known better of one; what isn't said stays.",
        (
            Field("delivery", "Number of the one to mend; empty for a new one.", Kind.WHOLE),
            *(Field(name, name.replace("_", " ").capitalize() + ".") for name in _TEXTS),
            *(
                Field(name, name.replace("_", " ").capitalize() + ".", Kind.WHOLE)
                for name in _NUMBERS
            ),
            Field("delivered_on", "The day it was handed over: 2026-03-14."),
            Field("late", "It came late.", Kind.YES),
            Field("why", "Anything worth knowing."),
        ),
        _record,
    ),
    Act(
        "except-package",
        "Record what is wrong with a package.",
        (
            Field("delivery", "The delivery's number.", Kind.WHOLE, needed=True),
            Field("crate", "Which crate; empty for the whole delivery."),
            Field("state", "missing, harmed or other."),
            Field("words", "What is wrong, concretely.", needed=True),
            Field("on_receipt", "The words stand on the driver's paper.", Kind.YES),
        ),
        _except,
    ),
    Act(
        "tie-lists",
        "Record which packing lists came with a delivery; their findings run by its clock.",
        (
            Field("delivery", "The delivery's number.", Kind.WHOLE, needed=True),
            Field("lists", "Numbers of the lists, as `1, 2`.", needed=True),
        ),
        _tie,
    ),
)
