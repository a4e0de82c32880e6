"""Rows of a delimited text that hold more cells than their head: a comma without quotes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.lists.packing import Reading
from inventory.sheets.packing.asking import Doubt

if TYPE_CHECKING:
    from collections.abc import Sequence

    from inventory.sheets.packing.asking import Asking
    from inventory.sheets.packing.row_results import PartRow


class RowsTooLong:
    """Asks about each part row that is longer than its head, where most rows aren't."""

    def __init__(self, parts: Sequence[PartRow], asking: Asking, *, delimited: bool) -> None:
        """Look at all part rows of a list; only a delimited text can be cut in a wrong place."""
        self._asking = asking
        longer = [part for part in parts if _extra(part)] if delimited else []
        few = 2 * len(longer) < len(parts)
        self._longer = {(part.sheet, part.row.number) for part in longer} if few else set()

    @property
    def any(self) -> bool:
        """Say whether there is such a row at all."""
        return bool(self._longer)

    def question(self, part: PartRow) -> str:
        """Return the id of the open question that holds a part row; empty where none does."""
        if (part.sheet, part.row.number) not in self._longer:
            return ""
        name = f"{part.sheet} row {part.row.number} extra cell"
        said = ", ".join(repr(text) for text in _extra(part))
        what = f"the row holds more cells than its head ({said}): a comma may have cut one in two"
        leave = Reading("leave", "the extra cell counts for nothing; the others stand as they are")
        answer = self._asking.ask(Doubt(name, what, (leave,)), part.sheet, part.row.number)
        return name if answer is None else ""


def _extra(part: PartRow) -> list[str]:
    first = max(part.span.start, part.table.span[1] + 1)
    return [text for text in part.row.texts[first : part.span.stop] if text]
