"""Six quantities of each line: ordered, shipped, back-ordered, and good, damaged, wrong."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.lists.packing import CountRule

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from inventory.core.lists.packing import PackingLine
    from inventory.core.receiving.counts import Count


@frozen(kw_only=True)
class LineTally:
    """One line of the list and what was counted for it; quantities in the line's measure."""

    line: PackingLine
    pieces_good: int
    pieces_damaged: int
    pieces_wrong: int
    about: int
    """What was counted may be off by this much; 0 where it is exact."""

    @property
    def pieces_received(self) -> int:
        """Pieces of the part itself, good or damaged."""
        return self.pieces_good + self.pieces_damaged

    @property
    def pieces_short(self) -> int:
        """How many are surely missing of what the list says was shipped."""
        if self.line.count_rule is not CountRule.COUNTED:
            return 0
        return max(0, self.line.shipped - self.pieces_received - self.about)

    @property
    def pieces_over(self) -> int:
        """How many surely are more than the list says was shipped."""
        if self.line.count_rule is not CountRule.COUNTED:
            return 0
        return max(0, self.pieces_received - self.about - self.line.shipped)


@frozen
class Tally:
    """All lines with what was counted for them."""

    lines: tuple[LineTally, ...]
    line_of: tuple[PackingLine | None, ...]
    """For each count in the order given: the line it was counted for; None where no line is."""


@dataclass(slots=True)
class _Filling:
    """A line while counts are dealt to it."""

    line: PackingLine
    good: int = 0
    damaged: int = 0
    wrong: int = 0
    about: int = 0

    @property
    def room(self) -> int:
        return self.line.shipped - self.good - self.damaged

    def done(self) -> LineTally:
        return LineTally(
            line=self.line,
            pieces_good=self.good,
            pieces_damaged=self.damaged,
            pieces_wrong=self.wrong,
            about=self.about,
        )


@dataclass(slots=True)
class _Dealing:
    """A count while its pieces are dealt to lines."""

    count: Count
    good: int
    damaged: int
    nearest: list[_Filling] = field(default_factory=list)
    """The lines in the nearest place: what is over, and every doubt, stays with them."""

    def give(self, filling: _Filling, most: int) -> None:
        """Hand over up to `most` pieces, damaged ones first: they are on the list as well."""
        damaged = min(self.damaged, most)
        good = min(self.good, most - damaged)
        self.damaged -= damaged
        self.good -= good
        filling.damaged += damaged
        filling.good += good

    def deal(self, fillings: list[_Filling]) -> None:
        """Give each line of the nearest place what it has room for."""
        if not self.nearest:
            self.nearest = fillings
            for filling in fillings:
                self.give(filling, filling.room)
                filling.about += self.count.about

    def leave_rest(self) -> None:
        """Leave what no line had room for with the nearest line."""
        for filling in self.nearest[:1]:
            self.give(filling, self.good + self.damaged)
            filling.wrong += self.count.pieces_wrong

    @property
    def line(self) -> PackingLine | None:
        return self.nearest[0].line if self.nearest else None


def tally(lines: Sequence[PackingLine], counts: Sequence[Count]) -> Tally:
    """Deal the counts to the lines of the same part and hand: own bag first, then own crate.

    A part that lay where no line lists it goes to its lines elsewhere. What is too much for the
    nearest lines stays over with them; whether it lacks elsewhere is told by the findings. Hands
    never mix. Lines for reference only take nothing.
    """
    fillings = [_Filling(line) for line in lines]
    by_part: defaultdict[str, list[_Filling]] = defaultdict(list)
    for filling in fillings:
        if filling.line.count_rule is not CountRule.REFERENCE:
            by_part[filling.line.part].append(filling)
    dealings = [_Dealing(count, count.pieces_good, count.pieces_damaged) for count in counts]
    for near in (_same_bag, _same_crate, _anywhere):
        for dealing in dealings:
            dealing.deal(_candidates(dealing.count, by_part, near))
    for dealing in dealings:
        dealing.leave_rest()
    return Tally(
        lines=tuple(filling.done() for filling in fillings),
        line_of=tuple(dealing.line for dealing in dealings),
    )


def _candidates(
    count: Count,
    by_part: dict[str, list[_Filling]],
    near: Callable[[Count, PackingLine], bool],
) -> list[_Filling]:
    return [
        filling
        for filling in by_part.get(count.instead_of or count.part, ())
        if _same_item(count, filling.line) and near(count, filling.line)
    ]


def _same_item(count: Count, line: PackingLine) -> bool:
    lengths_agree = not count.length or not line.length or count.length == line.length
    return count.hand is line.hand and lengths_agree


def _same_bag(count: Count, line: PackingLine) -> bool:
    return (count.crate, count.bag) == (line.crate, line.bag)


def _same_crate(count: Count, line: PackingLine) -> bool:
    return count.crate == line.crate


def _anywhere(_count: Count, _line: PackingLine) -> bool:
    return True
