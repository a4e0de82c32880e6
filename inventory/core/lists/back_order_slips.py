"""A slip of parts that were to follow: which open lines it closes, and how far."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from inventory.core.lists.packing import PackingLine


@frozen
class Closing:
    """What one line of the slip brings for one open line."""

    open_line: PackingLine
    slip_line: PackingLine
    quantity: int
    """Smallest units of the line's measure."""
    still_due: int
    """Of the open line, after this slip."""
    shared: bool
    """True where other open lines want the same part, so that a person may share it otherwise."""


@frozen
class SlipMatch:
    """How a slip meets the lines that are open."""

    closings: tuple[Closing, ...]
    unexpected: tuple[tuple[PackingLine, int], ...]
    """Slip lines, or the rest of them, that no open line waits for."""


@dataclass(slots=True)
class _Waiting:
    line: PackingLine
    due: int


def match_slip(slip: Iterable[PackingLine], open_lines: Sequence[PackingLine]) -> SlipMatch:
    """Return which open lines a slip closes: the same part, hand and stock length.

    Where several lines wait for a part, the one of the slip line's sub-kit comes first, then the
    order of the list; that choice is marked as shared.
    """
    waiting: defaultdict[tuple[object, ...], list[_Waiting]] = defaultdict(list)
    for line in open_lines:
        if line.back_ordered:
            waiting[_part(line)].append(_Waiting(line, line.back_ordered))
    closings: list[Closing] = []
    unexpected: list[tuple[PackingLine, int]] = []
    for line in slip:
        rest = _close(line, waiting[_part(line)], closings)
        if rest:
            unexpected.append((line, rest))
    return SlipMatch(tuple(closings), tuple(unexpected))


def _part(line: PackingLine) -> tuple[object, ...]:
    return line.part, line.hand, line.length, line.measure


def _close(line: PackingLine, waiting: list[_Waiting], closings: list[Closing]) -> int:
    """Give a slip line's pieces to the lines that wait for them; return what is left over."""
    rest = line.shipped
    open_now = [each for each in waiting if each.due]
    for each in sorted(open_now, key=lambda one: one.line.sub_kit != line.sub_kit):
        given = min(rest, each.due)
        if given:
            each.due -= given
            rest -= given
            shared = len(open_now) > 1
            closings.append(Closing(each.line, line, given, each.due, shared))
    return rest
