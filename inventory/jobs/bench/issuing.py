"""Pieces out to a step, back from it, and to scrap."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError, NotEnoughError
from inventory.core.frozen import frozen
from inventory.core.items import State, part_key
from inventory.core.measures.amounts import measured
from inventory.core.places import Place, PlaceKind
from inventory.core.record.ledger import Movement
from inventory.core.scanning.issuing import StepAsking, check_issue
from inventory.jobs.acts import acting
from inventory.jobs.again import tried_again
from inventory.jobs.bench.finding_items import Taking, enough_lying, known_part
from inventory.jobs.bench.putting_away import known_bin
from inventory.jobs.planning.kept_aside import refuse_kept
from inventory.jobs.planning.planning import known_step
from inventory.jobs.planning.shelf_lives import expired_within, is_expired
from inventory.store.ledger.stock import lying, lying_in_both
from inventory.store.planning.standing import standing

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import date

    from inventory.core.items import Item
    from inventory.core.planning.plan import Need
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench
    from inventory.jobs.bench.finding_items import Asked
    from inventory.store.kits import Kit
    from inventory.store.ledger.stock import Lying
    from inventory.store.opening.database import Connection
    from inventory.store.planning.standing import Standing

MADE = Place(PlaceKind.MADE)
SCRAP = Place(PlaceKind.SCRAP)


@frozen(kw_only=True)
class Issue:
    """Pieces for a step, as a person or a scan says it."""

    asked: Asked
    pieces: int
    step: str
    origin: Place | None = None
    """The bin they are taken from; None where the part lies in one bin only."""
    over: bool = False
    """Record them even where the step needs fewer."""
    by_piece: bool = False
    """Whether it was said in whole pieces, as a scanner does: what is measured is refused."""
    expired: bool = False
    """Although the lot is past its date: the slip's note says who decided."""


class ExpiredError(InventoryError):
    """The lot is past its date; a person may decide to use it all the same."""


@tried_again
def issue(bench: Bench, wanted: Issue, slip: Slip) -> Movement:
    """Record pieces as issued to a step; what the plan doesn't ask for is refused with words."""
    with acting(bench, "issue", slip) as act:
        move = _checked(act.db, bench.kit, wanted)
        if not (wanted.expired and slip.note):
            _refuse_expired(act.db, bench.kit, move.item, slip.happened_on)
        act.move([move])
        return move


def _refuse_expired(db: Connection, kit: Kit, item: Item, day: date) -> None:
    if item.lot and is_expired(item, expired_within(db, kit, day)):
        raise ExpiredError(
            f"lot {item.lot} of {item.part} is past its date",
            where=f"lot {item.lot}",
            remedy="If whoever decides lets it be used, say --expired, and with --why who and why.",
        )


def issuable_step(db: Connection, kit: Kit, code: str) -> str:
    """Return the step's code as the plan writes it; refused for a step that is done."""
    return _open_step(standing(db, kit.id), code)


def _open_step(now: Standing, code: str) -> str:
    step = known_step(now.codes.get(part_key(code), ()), code)
    if now.states.get(step) in ("done", "built before"):
        raise InventoryError(
            f"step {step} is done already",
            where=f"step {step}",
            remedy=f"Reopen it first: kitwright step reopen {step}",
        )
    return step


def only_bin(db: Connection, kit: Kit, asked: Asked) -> Place:
    """Return the one bin that holds the part; in none or in several it is asked."""
    part = known_part(db, kit, asked.part)
    there = lying(db, kit.id, part=part.key)
    bins = sorted(
        {
            lies.place
            for lies in there
            if lies.place.kind is PlaceKind.BIN and lies.quantity > 0 and asked.agrees(lies.item)
        }
    )
    if len(bins) == 1:
        return bins[0]
    if bins:
        raise InventoryError(
            f"{part.printed} lies in {len(bins)} bins: {', '.join(bin_.code for bin_ in bins)}",
            remedy="Scan the bin first, or say --from BIN.",
        )
    other = [
        f"{measured(lies.quantity, part.measure)} in {lies.place}"
        for lies in there
        if lies.quantity > 0
    ]
    held = any(lies.place.kind is PlaceKind.HOLD for lies in there)
    raise NotEnoughError(
        f"no {part.printed} lies in a bin" + ("; some are ON HOLD" if held else ""),
        remedy=f"The record shows {', '.join(other)}." if other else "None is in the record.",
    )


def _checked(db: Connection, kit: Kit, wanted: Issue) -> Movement:
    now = standing(db, kit.id)
    step = _open_step(now, wanted.step)
    origin = wanted.origin or only_bin(db, kit, wanted.asked)
    if origin.kind is PlaceKind.HOLD:
        raise InventoryError(
            f"{wanted.asked.part} is ON HOLD and can't be issued",
            where=str(origin),
            remedy="Release it first, if the person who decides says so.",
        )
    taking, target = Taking(wanted.asked, wanted.pieces, origin), Place(PlaceKind.STEP, step)
    there = lying_in_both(db, kit.id, part_key(wanted.asked.part), origin, target)
    item = enough_lying(db, kit, taking, [lies for lies in there if lies.place == origin])
    needs = now.needs(db, kit.id, step)
    asking = _asking(now, needs, target, there, by_piece=wanted.by_piece)
    check_issue(asking, item, wanted.pieces, over=wanted.over)
    if item.state is State.NEW and now.kept:
        refuse_kept(db, kit, item, wanted.pieces, step)
    return Movement(item, wanted.pieces, origin, target)


def check_for_step(db: Connection, kit: Kit, move: Movement, *, over: bool = False) -> None:
    """Refuse pieces that the step doesn't ask for: another part, hand or length, too many."""
    now, step = standing(db, kit.id), move.destination
    there = lying(db, kit.id, place=step, part=move.item.part)
    asking = _asking(now, now.needs(db, kit.id, step.code), step, there)
    check_issue(asking, move.item, move.quantity, over=over)


def _asking(
    now: Standing,
    needs: tuple[Need, ...],
    step: Place,
    there: Iterable[Lying],
    *,
    by_piece: bool = False,
) -> StepAsking:
    has = {lies.item: lies.quantity for lies in there if lies.place == step}
    return StepAsking(step.code, needs, has, now.stand_ins, by_piece)


@tried_again
def take_back(
    bench: Bench, taking: Taking, bin_name: str, slip: Slip, *, worked: bool = False
) -> list[Movement]:
    """Record pieces as back from a step; those that were trimmed or drilled come back as worked.

    Worked pieces never count as new again: new ones leave for the bench that works them (made),
    worked ones come from there.
    """
    with acting(bench, "take-back", slip) as act:
        item = enough_lying(act.db, bench.kit, taking)
        bin_ = known_bin(act.db, bench.kit, bin_name)
        moves = [Movement(item, taking.pieces, taking.origin, bin_)]
        if worked and item.state is State.NEW:
            moves = [
                Movement(item, taking.pieces, taking.origin, MADE),
                Movement(replace(item, state=State.WORKED), taking.pieces, MADE, bin_),
            ]
        act.move(moves)
        return moves


@tried_again
def scrap(bench: Bench, taking: Taking, slip: Slip) -> Movement:
    """Record pieces as scrapped; the slip's note says why."""
    if not slip.note:
        raise InventoryError("why are they scrapped?", remedy="Say it with --why.")
    with acting(bench, "scrap", slip) as act:
        item = enough_lying(act.db, bench.kit, taking)
        move = Movement(item, taking.pieces, taking.origin, SCRAP)
        act.move([move])
        return move
