"""The doubts about one row: asked by the row's own name, or by a name that many rows share."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.lists.packing import Reading
from inventory.sheets.packing.asking import Doubt

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from inventory.sheets.packing.asking import Asking

    Accepts = Callable[[str], bool] | None


class RowAsking:
    """Asks about one part row, and remembers what stays open."""

    def __init__(self, asking: Asking, sheet: str, row: int, table: int = 0) -> None:
        """Ask about a row of a sheet; `table` tells tables side by side apart."""
        self._asking = asking
        self._sheet = sheet
        self._row = row
        self._side = f" table {table + 1}" if table else ""
        self.open: list[str] = []
        """Ids of the questions that hold the row."""
        self.unknown: set[str] = set()
        """What isn't settled: part, hand, ordered, shipped, back_ordered, unit."""

    @property
    def where(self) -> str:
        """The row's name: sheet and row, and the table where several stand side by side."""
        return f"{self._sheet} row {self._row}{self._side}"

    def about_row(
        self, subject: str, what: str, readings: Mapping[str, str], accepts: Accepts = None
    ) -> str | None:
        """Ask what only this row poses; `readings` are answers and what each would do."""
        return self._ask(f"{self.where} {subject}", what, readings, accepts)

    def about_list(
        self, name: str, what: str, readings: Mapping[str, str], accepts: Accepts = None
    ) -> str | None:
        """Ask what one answer settles for every row; a row's own answer goes before it."""
        return self._ask(name, what, readings, accepts)

    def _ask(
        self, name: str, what: str, readings: Mapping[str, str], accepts: Accepts
    ) -> str | None:
        choices = tuple(Reading(answer, effect) for answer, effect in readings.items())
        doubt = Doubt(name, what, choices, accepts)
        own = f"{self.where} {name}"
        answer = self._asking.ask(doubt, self._sheet, self._row, own if own != name else "")
        if answer is None:
            self.open.append(name)
        return answer
