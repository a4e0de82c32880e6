"""Questions about lots and about the saw."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.jobs.cutting.sticks import cut_plans
from inventory.jobs.cutting.words import bought_words, uncut_words
from inventory.jobs.planning.shelf_lives import lots
from inventory.web.api import views
from inventory.web.api.question import Question
from inventory.web.api.shapes import DAY, HAND, LYING, TEXT, WHOLE, YES, many, maybe, record
from inventory.web.api.views import day

if TYPE_CHECKING:
    from collections.abc import Mapping

    from inventory.jobs.cutting.sticks import PlannedStick, ProfilePlan
    from inventory.jobs.planning.shelf_lives import LotToday
    from inventory.web.api.views import Document
    from inventory.web.visit import Visit

_LOT = record(
    part=TEXT, lot=TEXT, state=TEXT, last_use=maybe(DAY), made=maybe(DAY), opened=maybe(DAY),
    certificate=TEXT, lying=many(LYING),
)  # fmt: skip
_PIECE = record(step=TEXT, find_number=TEXT, length_nm=WHOLE)
_STICK = record(
    to_buy=YES, bin=TEXT, lot=TEXT, length_nm=WHOLE, kerf_nm=WHOLE, remnant_nm=WHOLE,
    pieces=many(_PIECE),
)  # fmt: skip
_PROFILE = record(
    part=TEXT, hand=HAND, description=TEXT, bought=TEXT, not_from_this_stock=many(TEXT),
    sticks=many(_STICK),
)  # fmt: skip


def _lots(at: Visit, _said: Mapping[str, str]) -> list[Document]:
    return [_lot(each) for each in lots(at.bench, at.today)]


def _lot(each: LotToday) -> Document:
    shelf = each.lot.shelf
    return {
        "part": each.lot.part,
        "lot": each.lot.lot,
        "state": each.state.value,
        "last_use": day(shelf.last_use),
        "made": day(shelf.made),
        "opened": day(shelf.opened),
        "certificate": each.lot.certificate,
        "lying": [views.lies(lies.place, lies.item, lies.quantity) for lies in each.lying],
    }


def _cutting(at: Visit, said: Mapping[str, str]) -> list[Document]:
    step = said.get("step", "").strip()
    return [_profile(each) for each in cut_plans(at.bench, [step] if step else [], {})]


def _profile(each: ProfilePlan) -> Document:
    return {
        "part": each.part,
        "hand": each.hand.value,
        "description": each.description,
        "bought": bought_words(each),
        "not_from_this_stock": list(uncut_words(each)),
        "sticks": [_stick(each, one) for one in each.sticks],
    }


def _stick(profile: ProfilePlan, planned: PlannedStick) -> Document:
    stick = planned.stick
    needs = [profile.needs[piece.name] for piece in stick.pieces]
    return {
        "to_buy": planned.place is None,
        "bin": planned.place.code if planned.place else "",
        "lot": planned.item.lot if planned.item else "",
        "length_nm": stick.stock.length,
        "kerf_nm": stick.saw.kerf,
        "remnant_nm": stick.remnant,
        "pieces": [
            {"step": need.step, "find_number": need.find_number, "length_nm": piece.length}
            for need, piece in zip(needs, stick.pieces, strict=True)
        ],
    }


WORKSHOP = (
    Question("lots", "Every lot, what expires first at the top.", {}, many(_LOT), _lots),
    Question(
        "cutting", "Which piece comes from which stick; lengths in nanometres.",
        {"step": "Only for this step."}, many(_PROFILE), _cutting,
    ),
)  # fmt: skip
