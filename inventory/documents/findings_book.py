"""All findings as a spreadsheet, for sorting, sending and keeping."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.documents.hands import hand_word
from inventory.documents.tables import Table, to_xlsx

if TYPE_CHECKING:
    from collections.abc import Iterable

    from inventory.core.receiving.findings import Finding
    from inventory.documents.page_head import PageHead

_HEADINGS = (
    "No.",
    "Finding",
    "Concerns",
    "Crate",
    "Bag",
    "Part number",
    "Hand",
    "Description",
    "Listed",
    "Counted",
    "Difference",
    "In words",
    "Compared",
    "Sheet",
    "Row",
    "SF 364",
    "EDIFACT 4221",
)


def findings_table(findings: Iterable[Finding]) -> Table:
    """Return the findings as a table, numbered in the order given."""
    return Table(
        "Findings",
        _HEADINGS,
        tuple(
            (
                number,
                str(one.kind),
                str(one.addressee),
                one.crate,
                one.bag,
                one.printed or one.part,
                hand_word(one.hand),
                one.description,
                one.listed,
                one.counted,
                one.pieces,
                one.words,
                str(one.comparison),
                one.sheet,
                one.row or None,
                one.codes.sf364,
                one.codes.edifact,
            )
            for number, one in enumerate(findings, start=1)
        ),
    )


def findings_book(head: PageHead, findings: Iterable[Finding]) -> bytes:
    """Return the findings as an .xlsx workbook."""
    return to_xlsx(head, [findings_table(findings)])
