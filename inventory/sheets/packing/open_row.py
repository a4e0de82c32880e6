"""A part row while it is being understood: its cells, the list's manners, its open doubts."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.sheets.packing.row_asking import RowAsking

if TYPE_CHECKING:
    from inventory.sheets.packing.asking import Asking
    from inventory.sheets.packing.list_evidence import Evidence
    from inventory.sheets.packing.row_results import PartRow
    from inventory.sheets.packing.row_views import RowView


@frozen
class OpenRow:
    """What every step of understanding a row needs."""

    part: PartRow
    view: RowView
    evidence: Evidence
    asking: RowAsking

    @property
    def printed(self) -> str:
        """The part number as printed; of the row above where a ditto mark repeats it."""
        return self.part.above if self.view.ditto and self.part.above else self.view.part


def open_row(part: PartRow, evidence: Evidence, asking: Asking, held_by: str = "") -> OpenRow:
    """Begin to understand a part row; `held_by` is a question about its whole sheet."""
    view = part.view
    own = RowAsking(asking, part.sheet, view.row.number, view.table.number)
    own.open.extend(filter(None, [held_by]))
    return OpenRow(part, view, evidence, own)
