"""The step sheet: what a step needs, where each lies, what is short, and room for the log."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.items import Hand
from inventory.documents.hands import hand_flag, hand_word
from inventory.documents.paper_table import Cell, Column, Mark, table, upright_or_turned
from inventory.documents.pick_list import STEP_IDENTIFIER
from inventory.documents.tables import Table
from inventory.documents.wrapping import NUMBER, SMALL, STRONG, Type
from labels.typeface import Face

if TYPE_CHECKING:
    from inventory.documents.page_head import PageHead
    from inventory.documents.paper import Paper

_MEDIUM_NUMBER = Type(Face.CODE, 2.5)
_LINES_FOR_THE_LOG = 5


@frozen(kw_only=True)
class SheetNeed:
    """One thing the step uses."""

    part: str
    description: str = ""
    hand: Hand = Hand.NONE
    quantity: str
    """With its unit where it isn't pieces; `as required` for AR."""
    lies_in: str = ""
    """Bins with their pieces, for instance `B-01: 4, B-02: 2`."""
    short: str = ""
    """How much is missing; empty where nothing is."""
    plan_place: str = ""
    note: str = ""
    """Preparation asked for, expiry and the like."""


@frozen(kw_only=True)
class StepSheet:
    """One step of the plan."""

    step: str
    title: str = ""
    section: str = ""
    step_id: str = ""
    after: tuple[str, ...] = ()
    """Steps that come before, each with its state in words."""
    needs: tuple[SheetNeed, ...] = ()
    tools: tuple[str, ...] = ()


def step_sheet_pdf(head: PageHead, sheet: StepSheet) -> bytes:
    """Return the sheet that goes to the bench with the step."""
    return upright_or_turned(head, f"Step {sheet.step}", lambda paper: _write(paper, sheet))


def _write(paper: Paper, sheet: StepSheet) -> None:
    """Write the step, its needs, and room for what was done."""
    top = paper.y
    code = paper.code(STEP_IDENTIFIER + sheet.step_id, paper.right, top) if sheet.step_id else 0.0
    beside = paper.inner - 25
    paper.write(sheet.title, STRONG, width=beside)
    if sheet.section:
        paper.write(f"Section {sheet.section}", width=beside)
    paper.write(f"After: {', '.join(sheet.after) or 'nothing'}", width=beside)
    paper.y = max(paper.y, top + code) + 2
    if sheet.needs:
        table(paper, _COLUMNS, [_row(need) for need in sheet.needs], tall=8.0)
    short = sum(bool(need.short) for need in sheet.needs)
    paper.gap(1.5)
    paper.write(f"Short: {short} of {len(sheet.needs)} needs." if short else "Nothing is short.")
    if sheet.tools:
        paper.heading("Tools that come back")
        rows: list[list[Cell]] = [[Mark.BOX, tool] for tool in sheet.tools]
        table(paper, (Column(""), Column("Tool", fill=1.0)), rows)
    _log(paper)


def step_table(sheet: StepSheet) -> Table:
    """Return the needs of the step as a table."""
    return Table(
        f"Step {sheet.step}",
        ("Needs", "Part number", "Hand", "Description", "Lies in", "Short", "Plans", "Note"),
        tuple(
            (
                need.quantity,
                need.part,
                hand_word(need.hand),
                need.description,
                need.lies_in,
                need.short,
                need.plan_place,
                need.note,
            )
            for need in sheet.needs
        ),
    )


_COLUMNS = (
    Column(""),
    Column("Needs", _MEDIUM_NUMBER, right=True),
    Column("Part number", _MEDIUM_NUMBER),
    Column("Hand", STRONG),
    Column("Description", fill=1.0),
    Column("Lies in", NUMBER, fill=1.0),
    Column("Short", STRONG),
    Column("Plans", SMALL),
)


def _row(need: SheetNeed) -> list[Cell]:
    """Return one row of the needs."""
    words = f"{need.description}\n{need.note}" if need.note else need.description
    return [
        Mark.BOX,
        need.quantity,
        need.part,
        hand_flag(need.hand) or "",
        words,
        need.lies_in,
        need.short,
        need.plan_place,
    ]


def _log(paper: Paper) -> None:
    """Leave lines for what was done, by whom and when."""
    paper.heading("Done: what, by whom, when", keep=9.0 * _LINES_FOR_THE_LOG)
    for _ in range(_LINES_FOR_THE_LOG):
        paper.gap(8.5)
        paper.rule()
    paper.gap(2)
    paper.write("Counting aid only: drawings and the supplier's instructions rule.", SMALL)
