"""A sheet of moves into bins: from crates, or opening stock of a kit unpacked long ago."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.items import Hand, part_key
from inventory.core.measures.counted_amounts import has_unit
from inventory.core.receiving.counts import read_pieces
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
        "pieces": ("pieces", "quantity"),
        "bin": ("bin", "to bin", "place", "drawer", "shelf"),
        "lot": ("lot", "batch", "lot number"),
        "length": ("length",),
        "note": ("note", "notes", "remarks", "description"),
    },
    needed=(frozenset({"part"}), frozenset({"pieces"}), frozenset({"bin"})),
)


@frozen(kw_only=True)
class MoveRow:
    """One row: so many pieces of a part into a bin."""

    printed: str
    hand: Hand | None
    """None where the row doesn't say."""
    lot: str | None
    length: int | None
    """Nanometres; None where the row doesn't say."""
    amount: str
    """As written: pieces, or a mass, volume or length with its unit."""
    crate: str
    bag: str
    bin: str
    where: str


def read_moves(path: Path) -> tuple[list[MoveRow], list[Problem]]:
    """Return the moves of a sheet, and a problem for each row that can't be one."""
    return read_rows(path, VOCABULARY, _move_row)


def _move_row(row: BenchRow) -> MoveRow:
    printed, bin_ = row.text("part"), row.text("bin")
    if not part_key(printed):
        raise Doubt("there is no part number", "Write the number as it is on the part")
    if not part_key(bin_):
        raise Doubt("there is no bin", "Write the bin it goes into")
    amount = number_in(row.cell("pieces"))
    if not has_unit(amount) and not read_pieces(amount):
        raise Doubt("no pieces can't be put away", "Write how many, or leave the row out")
    return MoveRow(
        printed=printed,
        hand=hand_of(row.text("hand")) if row.text("hand") else None,
        lot=row.text("lot") or None,
        length=length_of(row.cell("length"), "") if row.text("length") else None,
        amount=amount,
        crate=row.text("crate"),
        bag=" ".join(row.text("bag").upper().split()),
        bin=bin_,
        where=row.where("part"),
    )
