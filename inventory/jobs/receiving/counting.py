"""From what was typed to the count of a part in a crate."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError
from inventory.core.frozen import frozen
from inventory.core.items import Measure, part_key
from inventory.core.measures.counted_amounts import read_amount
from inventory.core.parts.supersession import replacements, spelled, stands_for
from inventory.core.receiving.counts import Count, Method, Remark, read_pieces
from inventory.jobs.bench.finding_items import item_from_outside, new_part
from inventory.jobs.receiving.receiving import count, known_crate
from inventory.store.ledger.names import find_part
from inventory.store.receiving.counts import RecordedCount
from inventory.store.receiving.packing_lists import current_lines, listed_parts

if TYPE_CHECKING:
    from datetime import date

    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench
    from inventory.jobs.bench.finding_items import Asked
    from inventory.store.kits import Kit
    from inventory.store.opening.database import Connection


@frozen(kw_only=True)
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
    remarks: frozenset[Remark] = frozenset()
    expires: date | None = None
    instead_of: str = ""
    """The listed number that the papers say this one was sent for."""


def count_typed(
    bench: Bench, typed: TypedCount, slip: Slip, *, recount: bool = False, more: bool = False
) -> Count:
    """Record one count; of the pieces counted, `damaged` and `wrong` ones go on hold."""
    counted = settled_count(bench, typed, slip)
    recorded = RecordedCount(0, 0, counted, typed.asked.part, recount, slip.note)
    count(bench, [recorded], slip, more=more)
    return counted


def ask_about(bench: Bench, asked: Asked) -> None:
    """Refuse to count a number nobody knows that looks like a known one; it is only a question."""
    with bench.store.reading() as db:
        new_part(db, bench.kit, asked)


def settled_count(bench: Bench, typed: TypedCount, slip: Slip) -> Count:
    """Return the count that was typed, with what the packing list says where it is silent."""
    with bench.store.reading() as db:
        item = item_from_outside(db, bench.kit, typed.asked)
        pieces, damaged, wrong = (
            amount_counted(db, bench.kit, item.part, text)
            for text in (typed.pieces, typed.damaged, typed.wrong)
        )
        crate = known_crate(db, bench.kit, typed.crate)
        instead_of = part_key(typed.instead_of) or listed_instead(db, bench.kit, item.part)
    if damaged + wrong > pieces:
        bad = damaged + wrong if typed.pieces.strip().isdigit() else "more"
        raise InventoryError(
            f"{bad} damaged or wrong ones of {typed.pieces} can't be",
            remedy="The pieces are all that lie there, the damaged and wrong ones among them.",
        )
    return Count(
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
        remarks=typed.remarks,
        revision=typed.revision,
        expires=typed.expires,
        instead_of=instead_of,
        by=slip.person,
    )


def amount_counted(db: Connection, kit: Kit, part: str, text: str) -> int:
    """Return a typed count in the part's own measure; pieces where the kit doesn't know it."""
    known = find_part(db, kit.id, part)
    if known is None or known.measure is Measure.PIECES:
        return read_pieces(text)
    if text.strip() == "0":
        return 0
    units = {line.unit for line in current_lines(db, kit.id) if line.part == part}
    return read_amount(text, known.measure, " or ".join(sorted(units)))


def listed_instead(db: Connection, kit: Kit, part: str) -> str:
    """Return the listed number that this one is on paper, by a source that was read.

    Counted together, and still shown as `supplied as ..., listed as ...` until a person decides.
    """
    others = {number for each in replacements(part) if each.together
              for number in (each.old, each.new)}  # fmt: skip
    listed = listed_parts(db, kit.id) if others else set()
    if part in listed:
        return ""
    found = [key for key in listed if spelled(key) in others and stands_for(part, key)]
    return found[0] if len(found) == 1 else ""
