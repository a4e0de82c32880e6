"""From what was typed, scanned or written in a counts file to counts of a crate."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from inventory.core.counts import Count, Method, Remark, read_pieces
from inventory.core.errors import InventoryError, Problem, problems_in
from inventory.core.items import part_key
from inventory.core.supersession import replacements, spelled, stands_for
from inventory.jobs.finding_items import Asked, item_from_outside
from inventory.jobs.receiving import count, known_crate
from inventory.store.counts import RecordedCount
from inventory.store.packing_lists import listed_parts

if TYPE_CHECKING:
    from datetime import date
    from pathlib import Path

    from inventory.core.slips import Slip
    from inventory.jobs.acts import Bench
    from inventory.sheets.counts import CountRow
    from inventory.store.database import Connection
    from inventory.store.kits import Kit


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
    remarks: frozenset[Remark] = frozenset()
    expires: date | None = None
    instead_of: str = ""
    """The listed number that the papers say this one was sent for."""


@dataclass(frozen=True, slots=True)
class Counted:
    """What a counts file held."""

    rows: int
    pieces: int


def count_typed(
    bench: Bench, typed: TypedCount, slip: Slip, *, recount: bool = False, more: bool = False
) -> Count:
    """Record one count; of the pieces counted, `damaged` and `wrong` ones go on hold."""
    counted = settled_count(bench, typed, slip)
    recorded = RecordedCount(0, 0, counted, typed.asked.part, recount, slip.note)
    count(bench, [recorded], slip, more=more)
    return counted


def settled_count(bench: Bench, typed: TypedCount, slip: Slip) -> Count:
    """Return the count that was typed, with what the packing list says where it is silent."""
    pieces, damaged, wrong = map(read_pieces, (typed.pieces, typed.damaged, typed.wrong))
    if damaged + wrong > pieces:
        raise InventoryError(
            f"{damaged + wrong} damaged or wrong ones of {pieces} can't be",
            remedy="The pieces are all that lie there, the damaged and wrong ones among them.",
        )
    with bench.store.reading() as db:
        item = item_from_outside(db, bench.kit, typed.asked)
        crate = known_crate(db, bench.kit, typed.crate)
        instead_of = part_key(typed.instead_of) or listed_instead(db, bench.kit, item.part)
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


def listed_instead(db: Connection, kit: Kit, part: str) -> str:
    """Return the listed number that this one is on paper, by a source that was read.

    Counted together, and still shown as `supplied as ..., listed as ...` until a person decides.
    """
    others = {number for each in replacements(part) if each.together
              for number in (each.old, each.new)}  # fmt: skip
    if not others:
        return ""
    listed = listed_parts(db, kit.id)
    found = [key for key in listed if spelled(key) in others and stands_for(part, key)]
    return found[0] if len(found) == 1 and part not in listed else ""


def count_from_file(bench: Bench, path: Path, slip: Slip) -> Counted:
    """Record all counts of a file in one act, or none: a problem in any row refuses the file."""
    from inventory.sheets.counts import read_counts

    rows, problems = read_counts(path)
    with bench.store.reading() as db:
        settled = [_settled(db, bench, row, problems) for row in rows]
    if problems:
        raise problems_in(path.name, problems, "Mend the rows and read the file again.")
    recorded = [
        RecordedCount(0, 0, each, row.printed, recount=False, note=row.note)
        for row, each in zip(rows, settled, strict=True)
        if each is not None
    ]
    count(bench, recorded, slip)
    pieces = sum(each.count.pieces_counted + each.count.pieces_wrong for each in recorded)
    return Counted(sum(row.rows for row in rows), pieces)


def _settled(db: Connection, bench: Bench, row: CountRow, problems: list[Problem]) -> Count | None:
    """Return the count with what the packing list says where the row is silent."""
    asked = Asked(
        part=row.printed,
        hand=row.count.hand if row.hand_said else None,
        lot=row.count.lot,
        length=row.count.length or None,
    )
    try:
        item = item_from_outside(db, bench.kit, asked)
        crate = known_crate(db, bench.kit, row.count.crate) if row.count.crate else ""
    except InventoryError as refused:
        problems.append(Problem(refused.what, row.where, refused.remedy))
        return None
    instead_of = row.count.instead_of or listed_instead(db, bench.kit, item.part)
    return replace(
        row.count, hand=item.hand, length=item.length, crate=crate, instead_of=instead_of
    )
