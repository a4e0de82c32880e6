"""Lines of a crate side by side: LEFT beside RIGHT, so that both are counted in one look."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.items import Hand
from inventory.core.parts.hands import stem

if TYPE_CHECKING:
    from collections.abc import Iterable

    from inventory.core.lists.packing import PackingLine

_SIDES = (Hand.LEFT, Hand.RIGHT)


@frozen
class Row:
    """What is counted together: one line, or a left and a right one."""

    line: PackingLine | None = None
    """A line without a side; None where the row is a pair."""
    left: PackingLine | None = None
    right: PackingLine | None = None

    @property
    def lines(self) -> tuple[PackingLine, ...]:
        """The lines of the row, left before right."""
        return tuple(each for each in (self.line, self.left, self.right) if each is not None)

    @property
    def first(self) -> PackingLine:
        """The line that names the row."""
        return self.lines[0]


def side_by_side(lines: Iterable[PackingLine]) -> list[Row]:
    """Return the lines as rows, in their order; a pair stands where its first line stood.

    A pair is the same number in both hands, or two numbers that differ only by the word of their
    own hand; crate, bag and length must agree. It is a way to look at them: nothing is merged.
    """
    rows: list[Row] = []
    waiting: dict[tuple[object, ...], int] = {}
    for line in lines:
        if line.hand not in _SIDES:
            rows.append(Row(line))
            continue
        place = waiting.pop(_seat(line, _other(line.hand)), None)
        if place is None:
            waiting[_seat(line, line.hand)] = len(rows)
            rows.append(_with(Row(), line))
        else:
            rows[place] = _with(rows[place], line)
    return rows


def _with(row: Row, line: PackingLine) -> Row:
    if line.hand is Hand.LEFT:
        return Row(left=line, right=row.right)
    return Row(left=row.left, right=line)


def _seat(line: PackingLine, side: Hand) -> tuple[object, ...]:
    return stem(line.part, line.hand), line.crate, line.bag, line.length, side


def _other(side: Hand) -> Hand:
    return Hand.RIGHT if side is Hand.LEFT else Hand.LEFT
