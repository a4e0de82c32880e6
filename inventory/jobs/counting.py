"""From what was typed, scanned or written in a counts file to counts of a crate."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from inventory.core.counts import Count, Method, read_pieces
from inventory.core.errors import InventoryError
from inventory.jobs.finding_items import Asked, item_from_outside
from inventory.jobs.receiving import count, known_crate
from inventory.store.counts import RecordedCount

if TYPE_CHECKING:
    from inventory.core.slips import Slip
    from inventory.jobs.acts import Bench


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedCount:
    """A count as it was typed."""

    crate: str
    bag: str = ""
    asked: Asked
    pieces: str
    damaged: str = "0"
    wrong: str = "0"
    revision: str = ""
    method: Method = Method.COUNTED


@dataclass(frozen=True, slots=True)
class Counted:
    """What a counts file held."""

    rows: int
    pieces: int


def count_typed(
    bench: Bench, typed: TypedCount, slip: Slip, *, recount: bool = False, more: bool = False
) -> Count:
    """Record one count; of the pieces counted, `damaged` and `wrong` ones go on hold."""
    pieces, damaged, wrong = map(read_pieces, (typed.pieces, typed.damaged, typed.wrong))
    if damaged + wrong > pieces:
        raise InventoryError(
            f"{damaged + wrong} damaged or wrong ones of {pieces} can't be",
            remedy="The pieces are all that lie there, the damaged and wrong ones among them.",
        )
    with bench.store.reading() as db:
        item = item_from_outside(db, bench.kit, typed.asked)
        crate = known_crate(db, bench.kit, typed.crate)
    counted = Count(
        part=item.part,
        hand=item.hand,
        lot=item.lot,
        length=item.length,
        crate=crate,
        bag=" ".join(typed.bag.upper().split()),
        pieces_good=pieces - damaged - wrong,
        pieces_damaged=damaged,
        pieces_wrong=wrong,
        method=typed.method,
        revision=typed.revision,
        by=slip.person,
    )
    recorded = RecordedCount(0, 0, counted, typed.asked.part, recount, slip.note)
    count(bench, [recorded], slip, more=more)
    return counted
