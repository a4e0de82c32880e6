"""A sheet as an office fills it in, and the truth about each of its rows."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from sample_kits.spreadsheets import Cell, Sheet
    from tests.benchmarks.unseen_lists.supply import Part

Ask = Literal["no", "may", "must"]
"""Whether a reader has to ask about a row: it must where the row truly can be read two ways."""
Amount = tuple[str, str, str]
"""Ordered, shipped, back-ordered as fractions; `AR`, `REF`, or empty where nobody can tell."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Meant:
    """What one part on a row means; more than one reading where several are right."""

    numbers: tuple[str, ...]
    hand: str
    amounts: tuple[Amount, ...]
    sides: tuple[int, int] | None = None
    """Pieces left and right of those ordered, where they aren't half and half."""
    unit: str = "EA"
    crate: str = ""
    bag: str = ""
    sub_kit: str = ""
    revision: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """The truth about one source row."""

    sheet: str
    row: int
    classes: tuple[str, ...]
    """All that are right; a row of two tables side by side has its parts' class only."""
    parts: tuple[Meant, ...] = ()
    ask: Ask = "no"
    why: str = ""


def amounts(ordered: int | str, shipped: int | str, due: int | str = 0) -> Amount:
    return (str(ordered), str(shipped), str(due))


def meant(part: Part) -> Meant:
    """Return the truth of a part whose three amounts the list says plainly."""
    given = amounts(part.pieces, part.sent, part.due)
    return Meant(numbers=(part.number,), hand=part.hand, amounts=(given,), bag=part.bag)


@dataclass(slots=True)
class Page:
    """One sheet that is being filled."""

    sheet: Sheet
    truths: list[Row] = field(default_factory=list)

    def put(self, kind: str, *cells: Cell, bold: bool = False, ask: Ask = "no") -> int:
        """Append a row that holds no part; `kind` may name two classes that are both right."""
        row = self.sheet.add(*cells, bold=bold)
        classes = tuple(kind.split("|"))
        self.truths.append(Row(sheet=self.sheet.name, row=row, classes=classes, ask=ask))
        return row

    def part(
        self, cells: Sequence[Cell], parts: Iterable[Meant], ask: Ask = "no", why: str = ""
    ) -> int:
        """Append a row that holds parts."""
        row = self.sheet.add(*cells)
        truth = Row(
            sheet=self.sheet.name,
            row=row,
            classes=("part",),
            parts=tuple(parts),
            ask=ask,
            why=why,
        )
        self.truths.append(truth)
        return row

    def trimmed(self) -> Page:
        """Return the page without blank rows at its end, which no file keeps."""
        while self.truths and not any(self.sheet.rows[-1]):
            self.sheet.rows.pop()
            self.truths.pop()
        return self


@dataclass(frozen=True, slots=True)
class Document:
    """One list, ready to be written: its sheets, how to write them, and the truth."""

    name: str
    suffix: str
    """`xlsx`, `xls`, `ods` or `txt`; `csv;,;utf-8`: an ending, a delimiter and an encoding."""
    pages: tuple[Page, ...]
