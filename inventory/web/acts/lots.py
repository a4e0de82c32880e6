"""Lots over the network: what is marked on them, and holding a whole one back."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from inventory.jobs.planning.lots import hold_lot, record_lot
from inventory.web.acts.act import Act, told, told_moves
from inventory.web.fields import Field, Kind

if TYPE_CHECKING:
    from inventory.jobs.planning.lots import Lot
    from inventory.web.fields import Fields
    from inventory.web.visit import Visit

_PART = Field("part", "Part number as printed.", needed=True)
_LOT = Field("lot", "Lot or batch number as marked.", needed=True)


def _record(at: Visit, fields: Fields) -> dict[str, Any]:
    days = {name: fields.day(name) for name in ("made", "expires", "opened")}
    numbers = {name: fields.pieces(name) for name in ("months", "open_days") if fields.text(name)}
    said: dict[str, Any] = {**{name: day for name, day in days.items() if day}, **numbers}

    def change(before: Lot) -> Lot:
        certificate = fields.text("certificate") or before.certificate
        return replace(before, certificate=certificate, shelf=replace(before.shelf, **said))

    lot = record_lot(
        at.bench, fields.text("part"), fields.text("lot"), change, at.slip(fields.text("why"))
    )
    last = lot.shelf.last_use
    until = f"to be used until {last}" if last else "no last day is known"
    return told(f"lot {lot.lot} of {lot.part}: {until}")


def _hold(at: Visit, fields: Fields) -> dict[str, Any]:
    held = hold_lot(at.bench, at.slip(fields.text("why")), fields.text("part"), fields.text("lot"))
    if not held.movements:
        return told("nothing of it lies in bins or crates")
    return told_moves(at, held.movements)


LOTS = (
    Act(
        "record-lot",
        "Record what is marked on a lot; what isn't said again stays.",
        (
            _PART,
            _LOT,
            Field("expires", "Last day of use as marked: 2026-10, 10/26, 2026-10-31."),
            Field("made", "Made, cured or packed."),
            Field("months", "Shelf life in months.", Kind.WHOLE),
            Field("opened", "The day it was opened."),
            Field("open_days", "Days it lasts once opened.", Kind.WHOLE),
            Field("certificate", "Certificate, or where it lies."),
            Field("why", "Anything worth knowing."),
        ),
        _record,
    ),
    Act(
        "hold-lot",
        "Hold every piece of a lot, or of a part, back in one act.",
        (
            Field("part", "Part number; empty for every part of that lot."),
            Field("lot", "Lot number; empty for every lot of that part."),
            Field("why", "The reason, and who said so.", needed=True),
        ),
        _hold,
    ),
)
