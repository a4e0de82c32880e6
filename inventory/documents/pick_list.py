"""The pick list: what to fetch for a step, bin after bin, with a box to tick."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.counted import counted
from inventory.core.frozen import frozen
from inventory.core.items import Hand
from inventory.core.natural_order import natural
from inventory.documents.hands import hand_flag, hand_word
from inventory.documents.paper_table import Cell, Column, Mark, table, upright_or_turned
from inventory.documents.tables import Table
from inventory.documents.wrapping import BIG_NUMBER, PLAIN, SMALL, STRONG

if TYPE_CHECKING:
    from collections.abc import Sequence

    from inventory.documents.page_head import PageHead
    from inventory.documents.paper import Paper

STEP_IDENTIFIER = "1W"
"""Operation sequence number, by ANSI MH10.8.2 data identifiers (ISO/IEC 15418)."""


@frozen(kw_only=True)
class PickLine:
    """One part to take from one bin."""

    bin: str
    part: str
    """Part number as printed."""
    description: str = ""
    hand: Hand = Hand.NONE
    quantity: str
    """With its unit where it isn't pieces, for instance `4` or `2 x 310 mm`."""
    plan_place: str = ""
    """Drawing sheet and find number."""


@frozen(kw_only=True)
class ShortLine:
    """One part that the bins can't fill."""

    part: str
    description: str = ""
    hand: Hand = Hand.NONE
    quantity: str
    why: str = ""
    """Where it is due from and when, or what to do."""


@frozen(kw_only=True)
class PickList:
    """All that one step takes."""

    step: str
    title: str = ""
    step_id: str = ""
    """The step's own number, as on its label; empty where it has none."""
    lines: tuple[PickLine, ...]
    short: tuple[ShortLine, ...] = ()


def pick_list_pdf(head: PageHead, picks: PickList) -> bytes:
    """Return the pick list, ordered by bin; it fills one page unless it has very many lines."""
    return upright_or_turned(
        head, f"Pick list, step {picks.step}", lambda paper: _write(paper, picks)
    )


def _write(paper: Paper, picks: PickList) -> None:
    """Write the step, what to take, and what isn't there."""
    top = paper.y
    code = 0.0
    if picks.step_id:
        code = paper.code(STEP_IDENTIFIER + picks.step_id, paper.right, top)
    paper.write(picks.title, STRONG, width=paper.inner - 25)
    paper.write(_count(picks), PLAIN, width=paper.inner - 25)
    paper.y = max(paper.y, top + code) + 2
    if picks.lines:
        table(paper, _COLUMNS, [_row(line) for line in _by_bin(picks.lines)], tall=9.0)
    if picks.short:
        paper.heading("Not in any bin")
        table(paper, _SHORT_COLUMNS, [_short_row(line) for line in picks.short])
    paper.text(
        paper.left, paper.y + 3, "Fetched by ____________________   on ______________", PLAIN
    )


def pick_table(picks: PickList) -> Table:
    """Return the pick list as a table, what isn't there behind what is."""
    rows = [
        ("take", one.bin, one.quantity, one.part, hand_word(one.hand), one.description,
         one.plan_place)
        for one in _by_bin(picks.lines)
    ]  # fmt: skip
    rows += [
        ("not there", "", one.quantity, one.part, hand_word(one.hand), one.description, one.why)
        for one in picks.short
    ]
    headings = ("What", "Bin", "Quantity", "Part number", "Hand", "Description", "Plans, why")
    return Table(f"Pick list {picks.step}", headings, tuple(rows))


_COLUMNS = (
    Column(""),
    Column("Bin", BIG_NUMBER),
    Column("Take", BIG_NUMBER, right=True),
    Column("Part number", BIG_NUMBER),
    Column("Hand", STRONG),
    Column("Description", fill=1.0),
    Column("Plans", SMALL),
)
_SHORT_COLUMNS = (
    Column("Missing", BIG_NUMBER, right=True),
    Column("Part number", BIG_NUMBER),
    Column("Hand", STRONG),
    Column("Description", fill=1.0),
    Column("Why", fill=1.0),
)


def _by_bin(lines: Sequence[PickLine]) -> list[PickLine]:
    """Return the lines bin by bin, bins with numbers in the order a person would walk."""
    return sorted(lines, key=lambda line: (natural(line.bin), natural(line.part), line.hand))


def _row(line: PickLine) -> list[Cell]:
    """Return one row of the table."""
    return [
        Mark.BOX,
        line.bin,
        line.quantity,
        line.part,
        hand_flag(line.hand) or "",
        line.description,
        line.plan_place,
    ]


def _short_row(line: ShortLine) -> list[Cell]:
    """Return one row of what is missing."""
    return [line.quantity, line.part, hand_flag(line.hand) or "", line.description, line.why]


def _count(picks: PickList) -> str:
    """Say how much there is to fetch."""
    bins = len({line.bin for line in picks.lines})
    words = f"{counted(len(picks.lines), 'line')} from {counted(bins, 'bin')}"
    return f"{words}, {counted(len(picks.short), 'line')} not there" if picks.short else words
