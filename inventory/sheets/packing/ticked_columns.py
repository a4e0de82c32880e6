"""Columns of ticks, as PACKED or CHECKED heads them: rows that say no where others say yes."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from inventory.core.patterns import pattern

if TYPE_CHECKING:
    from collections.abc import Sequence

    from inventory.sheets.packing.packing_tables import Table
    from inventory.sheets.packing.row_results import PartRow
    from inventory.sheets.packing.row_views import RowView

_YES = pattern(r"[✓✔√☑☒XYJ]|\[[X✓]\]|OK|YES|JA|OUI|S[IÍÌ]|SIM|TAK|ANO|DONE", re.IGNORECASE)
_NO = pattern(r"[✗✘N]|NO|NOT|NON|NEIN|NEE|NEJ|NEI|N[ÃA]O|NIE|NE", re.IGNORECASE)
"""Abroad from memory; common practice, no source."""


def says_no(table: Table, parts: Sequence[PartRow]) -> bool:
    """Say whether a table has a column of ticks in which some rows say no, and others yes."""
    columns = [column for column in table.columns if column.meaning == "received"]
    for column in columns:
        said = {part.row.text(column.place) for part in parts if part.table is table}
        if any(map(_YES.fullmatch, said)) and any(map(_NO.fullmatch, said)):
            return True
    return False


def refusal_in(view: RowView) -> str:
    """Return what a column of ticks says against a row, with its heading: `Packed: no`."""
    for column in view.table.columns:
        text = view.row.text(column.place) if column.meaning == "received" else ""
        if text and _NO.fullmatch(text):
            return f"{column.heading}: {text}"
    return ""
