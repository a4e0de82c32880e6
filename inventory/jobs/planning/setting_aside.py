"""Pieces set aside for a step by a person: no other step may have them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError, NotEnoughError
from inventory.core.frozen import frozen
from inventory.core.items import Item, State
from inventory.core.parts.hands import hand_in_words
from inventory.core.places import Place, PlaceKind
from inventory.core.planning.workshop import SetAside
from inventory.core.record.ledger import Movement
from inventory.jobs.acts import acting
from inventory.jobs.again import tried_again
from inventory.jobs.bench.finding_items import SeveralKindsError, in_measure, item_words, known_part
from inventory.jobs.bench.issuing import check_for_step, issuable_step
from inventory.jobs.planning.kept_aside import kept_now, kept_words, new_in_bins, of_kind
from inventory.store.ledger.stock import lying
from inventory.store.planning.setting_aside import save_set_aside

if TYPE_CHECKING:
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench
    from inventory.jobs.bench.finding_items import Asked
    from inventory.store.kits import Kit
    from inventory.store.opening.database import Connection

BINS = Place(PlaceKind.BIN)
"""Stands for all bins: what is set aside stays where it lies."""


@frozen
class Keeping:
    """Pieces to set aside for a step, as a person says it; 0 lets them go."""

    asked: Asked
    pieces: int
    step: str


@tried_again
def set_aside(bench: Bench, keeping: Keeping, slip: Slip) -> SetAside:
    """Keep pieces for a step from now on, all that is kept of them for it; 0 lets them go."""
    with acting(bench, "set aside", slip) as act:
        step = issuable_step(act.db, bench.kit, keeping.step)
        item = _kind(act.db, bench.kit, keeping.asked)
        kept = SetAside(step, item, keeping.pieces)
        if keeping.pieces < 0:
            raise InventoryError(f"{keeping.pieces} pieces can't be set aside", remedy="0 or more.")
        if keeping.pieces:
            move = Movement(item, keeping.pieces, BINS, Place(PlaceKind.STEP, step))
            check_for_step(act.db, bench.kit, move)
            _refuse_more_than_lies(act.db, bench.kit, kept)
        save_set_aside(act.db, bench.kit.id, act.recorded.id, kept)
        return kept


def _kind(db: Connection, kit: Kit, asked: Asked) -> Item:
    """Return the kind that is meant: of any lot unless one was said."""
    part = known_part(db, kit, asked.part)
    kinds = {
        Item(part.key, lies.item.hand, asked.lot or "", lies.item.length)
        for lies in lying(db, kit.id, kinds=[PlaceKind.BIN], part=part.key)
        if lies.item.state is State.NEW and asked.agrees(lies.item)
    }
    if not kinds:
        raise NotEnoughError(
            f"no new {part.printed} lies in a bin", remedy=f"Look: kitwright where {part.printed}"
        )
    if len(kinds) > 1:
        raise SeveralKindsError(
            f"several kinds of {part.printed} lie in the bins: "
            + "; ".join(item_words(item) for item in sorted(kinds)),
            remedy="Say which one with --hand or --length.",
        )
    return kinds.pop()


def _refuse_more_than_lies(db: Connection, kit: Kit, wanted: SetAside) -> None:
    there, part = new_in_bins(db, kit, wanted.item), wanted.item.part
    others = [
        kept
        for kept in kept_now(db, kit, [wanted.item.part])
        if kept.step != wanted.step and of_kind(kept.item, wanted.item)
    ]
    if there - sum(kept.quantity for kept in others) < wanted.quantity:
        raise NotEnoughError(
            f"{in_measure(db, kit, part, wanted.quantity)} of {part} "
            f"{hand_in_words(wanted.item.hand)} are to be set aside, "
            f"{in_measure(db, kit, part, there)} lie in the bins" + kept_words(db, kit, others),
            remedy="Set fewer aside, or let others go: kitwright set-aside PART 0 --step STEP",
        )
