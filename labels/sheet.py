"""Which label goes where on which sheet: part-used sheets, damaged labels, copies."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from labels.errors import LabelError

if TYPE_CHECKING:
    from collections.abc import Iterator

    from labels.geometry import Rect
    from labels.stock import LabelStock


@dataclass(frozen=True, slots=True)
class Run:
    """How one lot of labels is put on its sheets."""

    start: int = 1
    """The first free label of the first sheet, counted row by row from the top left."""
    skip: frozenset[int] = frozenset()
    """Labels of the first sheet that are damaged or gone."""
    copies: int = 1
    by_column: bool = False
    cut_marks: bool = False

    def __post_init__(self) -> None:
        """Refuse to print nothing."""
        if self.copies < 1:
            raise LabelError(f"{self.copies} copies can't be printed", "Ask for one or more.")


ONE_EACH = Run()


def spots(stock: LabelStock, run: Run) -> Iterator[tuple[int, Rect]]:
    """Yield page number (from 0) and place of every free label, without end.

    Raises `LabelError` where the run starts off the sheet or leaves no label.
    """
    if not 1 <= run.start <= stock.per_page:
        raise LabelError(
            f"label {run.start} isn't on a sheet of {stock.name}, which has {stock.per_page}",
            f"Start at 1 to {stock.per_page}.",
        )
    rects = list(stock.rects(by_column=run.by_column))
    for number, rect in enumerate(rects, start=1):
        if number >= run.start and number not in run.skip:
            yield 0, rect
    page = 0
    while True:
        page += 1
        for rect in rects:
            yield page, rect


def next_free(stock: LabelStock, run: Run, labels: int) -> int:
    """Return where the next run starts on the last sheet of this one; 1 is a new sheet."""
    first = [number for number in range(run.start, stock.per_page + 1) if number not in run.skip]
    needed = labels * run.copies
    if needed < len(first):
        return first[needed]
    return (needed - len(first)) % stock.per_page + 1
