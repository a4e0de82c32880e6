"""Counts from a spreadsheet: all of them in one act, or none."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError, Problem, problems_in
from inventory.core.frozen import frozen
from inventory.jobs.bench.finding_items import Asked, item_from_outside, refuse_mixed_up
from inventory.jobs.receiving.counting import amount_counted, listed_instead
from inventory.jobs.receiving.receiving import count, known_crate
from inventory.store.receiving.counts import RecordedCount
from inventory.store.receiving.packing_lists import current_lines

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping
    from pathlib import Path

    from inventory.core.lists.packing import PackingLine
    from inventory.core.receiving.counts import Count
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench
    from inventory.sheets.bench.counts import CountRow
    from inventory.store.kits import Kit
    from inventory.store.opening.database import Connection

_FIELDS = {"good": "pieces_good", "damaged": "pieces_damaged", "wrong": "pieces_wrong"}


@frozen
class Counted:
    """What a counts file held."""

    rows: int
    pieces: int
    """Of all that is counted in pieces."""


def count_from_file(bench: Bench, path: Path, slip: Slip, *, new_parts: bool = False) -> Counted:
    """Record all counts of a file in one act, or none: a problem in any row refuses the file.

    A number that is a known one but for signs that are easily mixed up is such a problem, unless
    `new_parts` says that all of these are other parts.
    """
    from inventory.sheets.bench.counts import read_counts

    rows, problems = read_counts(path)
    with bench.store.reading() as db:
        lines = current_lines(db, bench.kit.id) if any(row.again for row in rows) else []
        crates = _crates(db, bench.kit, rows)
        settled = [_settled(db, bench.kit, row, crates, problems) for row in rows]
        if not new_parts:
            problems += _mixed_up(db, bench.kit, rows)
    for row, each in zip(rows, settled, strict=True):
        if each is not None:
            problems += _counted_twice(row, each, lines)
    if problems:
        raise problems_in(path.name, problems, "Mend the rows and read the file again.")
    recorded = [
        RecordedCount(0, 0, each, row.printed, recount=False, note=row.note)
        for row, each in zip(rows, settled, strict=True)
        if each is not None
    ]
    count(bench, recorded, slip)
    pieces = sum(
        each.count.pieces_counted + each.count.pieces_wrong
        for row, each in zip(rows, recorded, strict=True)
        if not row.amounts
    )
    return Counted(sum(row.rows for row in rows), pieces)


def _mixed_up(db: Connection, kit: Kit, rows: Iterable[CountRow]) -> Iterator[Problem]:
    for row in rows:
        try:
            refuse_mixed_up(db, kit, row.printed)
        except InventoryError as refused:
            yield Problem(refused.what, row.where, refused.remedy)


def _crates(db: Connection, kit: Kit, rows: Iterable[CountRow]) -> dict[str, str | InventoryError]:
    """Return each crate that the file names as the list writes it, or why it can't be."""
    found: dict[str, str | InventoryError] = {"": ""}
    for name in dict.fromkeys(row.count.crate for row in rows if row.count.crate):
        try:
            found[name] = known_crate(db, kit, name)
        except InventoryError as refused:
            found[name] = refused
    return found


def _settled(
    db: Connection,
    kit: Kit,
    row: CountRow,
    crates: Mapping[str, str | InventoryError],
    problems: list[Problem],
) -> Count | None:
    """Return the count with what the packing list says where the row is silent."""
    asked = Asked(
        part=row.printed,
        hand=row.count.hand if row.hand_said else None,
        lot=row.count.lot,
        length=row.count.length or None,
    )
    try:
        item = item_from_outside(db, kit, asked)
        crate = crates[row.count.crate]
        if isinstance(crate, InventoryError):
            raise crate
        measured = _measured(db, kit, item.part, row)
    except InventoryError as refused:
        problems.append(Problem(refused.what, row.where, refused.remedy))
        return None
    instead_of = row.count.instead_of or listed_instead(db, kit, item.part)
    return replace(measured, hand=item.hand, length=item.length, crate=crate, instead_of=instead_of)


def _measured(db: Connection, kit: Kit, part: str, row: CountRow) -> Count:
    """Return the row's count with amounts in the part's own measure."""
    if not row.amounts:
        for pieces in (row.count.pieces_good, row.count.pieces_damaged, row.count.pieces_wrong):
            if pieces:
                amount_counted(db, kit, part, str(pieces))
        return row.count
    if len(row.amounts) < row.rows:
        raise InventoryError(
            f"{row.printed} is counted with a unit here and without one elsewhere",
            remedy="Write the unit in each row.",
        )
    sums = dict.fromkeys(_FIELDS.values(), 0)
    for condition, text in row.amounts:
        sums[_FIELDS[condition]] += amount_counted(db, kit, part, text)
    return replace(
        row.count,
        pieces_good=sums["pieces_good"],
        pieces_damaged=sums["pieces_damaged"],
        pieces_wrong=sums["pieces_wrong"],
    )


def _counted_twice(row: CountRow, each: Count, lines: list[PackingLine]) -> list[Problem]:
    """Refuse more rows of one condition than the list has lines of that part there."""
    listed = sum(
        (line.crate, line.bag, line.part, line.hand)
        == (each.crate, each.bag, each.instead_of or each.part, each.hand)
        for line in lines
    )
    return [
        Problem(
            f"{row.printed} is counted before in {row.where}, same crate, bag and hand",
            where,
            "Write one row with all pieces, or strike the second count",
        )
        for where in row.again[max(0, listed - 1) :]
    ]
