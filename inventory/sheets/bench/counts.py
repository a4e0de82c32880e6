"""A counts file: what was counted, a row for each part of each crate or bag."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.items import part_key
from inventory.core.measures.counted_amounts import has_unit
from inventory.core.receiving.counts import Count, Method, read_pieces
from inventory.sheets.bench.bench_sheet import read_rows
from inventory.sheets.columns import Vocabulary
from inventory.sheets.plan.plan_cells import Doubt, hand_of, length_of, number_in

if TYPE_CHECKING:
    from pathlib import Path

    from inventory.core.errors import Problem
    from inventory.sheets.bench.bench_sheet import BenchRow

VOCABULARY = Vocabulary(
    spellings={
        "crate": ("crate",),
        "bag": ("bag",),
        "part": ("part number", "part no", "part", "P/N", "number"),
        "hand": ("hand", "LH/RH"),
        "pieces": ("pieces", "quantity", "counted", "pieces counted", "quantity counted"),
        "condition": ("condition", "state"),
        "revision": ("revision",),
        "lot": ("lot", "batch", "lot number", "batch number"),
        "expires": ("expires", "expiry", "use by", "expiry date"),
        "length": ("length",),
        "method": ("method",),
        "by": ("by", "counted by", "who"),
        "note": ("note", "notes", "remarks"),
    },
    needed=(frozenset({"part"}), frozenset({"pieces"})),
)
_CONDITIONS = {
    "": "good", "good": "good", "ok": "good", "damaged": "damaged", "bent": "damaged",
    "wrong": "wrong", "wrong part": "wrong",
}  # fmt: skip


@frozen
class CountRow:
    """One row of the file."""

    count: Count
    printed: str
    hand_said: bool
    """Whether the row says a hand; where it doesn't, the packing list does."""
    note: str
    where: str
    rows: int = 1
    """Rows of the file that it was joined from."""
    amounts: tuple[tuple[str, str], ...] = ()
    """Condition and text of what isn't counted in pieces; the count holds 1 in its place."""
    again: tuple[str, ...] = ()
    """Where the same part in the same condition stands once more: only the list tells why."""


def read_counts(path: Path) -> tuple[list[CountRow], list[Problem]]:
    """Return the counts of a file, and a problem for each row that can't be one.

    Rows of one pile become one count. The same condition twice is kept in mind: whether the part
    was counted twice, or the list has two lines of it, only the packing list can tell.
    """
    rows, problems = read_rows(path, VOCABULARY, _count_row)
    return _joined(rows), problems


def _count_row(row: BenchRow) -> CountRow:
    printed = row.text("part")
    if not part_key(printed):
        raise Doubt("there is no part number", "Write the number as it is on the part")
    text = number_in(row.cell("pieces"))
    measured = has_unit(text)
    pieces = 1 if measured else read_pieces(text)
    condition = _CONDITIONS.get(row.text("condition").casefold())
    if condition is None:
        raise Doubt(f"{row.text('condition')!r} is no condition", "Write good, damaged or wrong")
    count = Count(
        part=part_key(printed),
        hand=hand_of(row.text("hand")),
        length=length_of(row.cell("length"), "") if row.text("length") else 0,
        crate=" ".join(row.text("crate").upper().split()),
        bag=" ".join(row.text("bag").upper().split()),
        pieces_good=pieces if condition == "good" else 0,
        pieces_damaged=pieces if condition == "damaged" else 0,
        pieces_wrong=pieces if condition == "wrong" else 0,
        method=_method(row.text("method")),
        revision=row.text("revision"),
        lot=row.text("lot"),
        expires=_day(row),
        by=row.text("by"),
    )
    return CountRow(
        count,
        printed,
        bool(row.text("hand")),
        row.text("note"),
        row.where("part"),
        amounts=((condition, text),) if measured else (),
    )


def _method(text: str) -> Method:
    try:
        return Method(text.casefold()) if text else Method.COUNTED
    except ValueError:
        raise Doubt(
            f"{text!r} is no way of counting", f"Write one of: {', '.join(Method)}"
        ) from None


def _day(row: BenchRow) -> date | None:
    cell = row.cell("expires")
    text = (cell.mark.value or cell.text).strip()
    if not text:
        return None
    try:
        return date.fromisoformat(text[:10])
    except ValueError:
        raise Doubt(f"{text!r} is no date", "Write it as 2026-10-31") from None


def _joined(rows: list[CountRow]) -> list[CountRow]:
    piles: dict[Count, CountRow] = {}
    for row in rows:
        key = replace(row.count, pieces_good=0, pieces_damaged=0, pieces_wrong=0)
        first = piles.get(key)
        piles[key] = row if first is None else _sum(first, row)
    return list(piles.values())


def _same_condition(one: Count, other: Count) -> bool:
    return any(
        a and b
        for a, b in (
            (one.pieces_good, other.pieces_good),
            (one.pieces_damaged, other.pieces_damaged),
            (one.pieces_wrong, other.pieces_wrong),
        )
    )


def _sum(one: CountRow, other: CountRow) -> CountRow:
    count = replace(
        one.count,
        pieces_good=one.count.pieces_good + other.count.pieces_good,
        pieces_damaged=one.count.pieces_damaged + other.count.pieces_damaged,
        pieces_wrong=one.count.pieces_wrong + other.count.pieces_wrong,
    )
    note = "; ".join(filter(None, (one.note, other.note)))
    again = (other.where,) if _same_condition(one.count, other.count) else ()
    return replace(
        one,
        count=count,
        note=note,
        rows=one.rows + other.rows,
        amounts=one.amounts + other.amounts,
        again=one.again + again,
    )
