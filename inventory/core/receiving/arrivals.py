"""Pieces that come later, and which back-order or replacement they are."""

from __future__ import annotations

from collections import Counter, defaultdict
from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

from inventory.core.frozen import frozen
from inventory.core.items import Hand
from inventory.core.receiving.findings import FindingKind

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable, Sequence

    from inventory.core.lists.packing import PackingLine
    from inventory.core.receiving.findings import Finding
    from inventory.core.receiving.still_to_come import Coming


class Wanted(NamedTuple):
    """What has to agree between what is open and what comes: left never fills right."""

    part: str
    hand: Hand = Hand.NONE
    length: int = 0
    """Nanometres of each stock length."""


@frozen
class ListedLine:
    """A line with its own number in the record and that of its list."""

    id: int
    packing_list: int
    line: PackingLine

    @property
    def wanted(self) -> Wanted:
        """Part, hand and length."""
        return Wanted(self.line.part, self.line.hand, self.line.length)


@frozen(kw_only=True)
class Expected:
    """Pieces that the other side said it would send for a finding of a report."""

    id: int
    report: int
    kind: FindingKind
    wanted: Wanted
    printed: str
    pieces: int
    packing_list: int | None = None
    """None where no list is concerned."""
    sheet: str = ""
    row: int = 0
    crate: str = ""
    bag: str = ""

    def concerns(self, packing_list: int | None, finding: Finding) -> bool:
        """Say whether it is for this finding.

        A wrong hand is told of the piece that came, yet the other hand is what is to be sent.
        """
        same_part = (self.wanted.part, self.wanted.hand) == (finding.part, finding.hand)
        return (same_part or self.kind is FindingKind.WRONG_HAND) and (
            self.kind, self.packing_list, self.sheet, self.row, self.crate, self.bag
        ) == (
            finding.kind, packing_list, finding.sheet, finding.row, finding.crate, finding.bag
        )  # fmt: skip


@frozen(kw_only=True)
class Arrival:
    """Pieces of a later line that fill a back-order (`closes`), or are what was `expected`."""

    slip: int
    line: int
    closes: int | None = None
    expected: int | None = None
    pieces: int
    wanted: Wanted


@frozen(kw_only=True)
class Promise:
    """By when pieces still to come are promised; of one item, those of the newest slip hold."""

    slip: int
    wanted: Wanted
    pieces: int = 0
    """0 for all that is still to come."""
    promised: dt.date | None
    """None where the date was taken back."""
    latest: dt.date | None = None
    words: str = ""
    report: int | None = None
    """The report that was answered with it; None for any of the item, back-orders first."""


@frozen
class Matched:
    """Pieces of a line that came, and the open matter they close."""

    line: ListedLine
    coming: Coming
    pieces: int


def settled_lines(lines: Sequence[ListedLine], arrivals: Iterable[Arrival]) -> list[ListedLine]:
    """Return the lines as they stand after what came later: each back-order less what filled it.

    A line that came for others asks for nothing itself: what it says was ordered is their order.
    Where a list was replaced by a revised one, what came fills the same part of the new list.
    """
    filled, loose, coming = Counter[int](), Counter[Wanted](), set[int]()
    here = {each.id for each in lines}
    for arrival in arrivals:
        coming.add(arrival.line)
        if arrival.closes is None:
            continue
        if arrival.closes in here:
            filled[arrival.closes] += arrival.pieces
        else:
            loose[arrival.wanted] += arrival.pieces
    return [_settled(each, filled, loose, came=each.id in coming) for each in lines]


def _settled(
    each: ListedLine, filled: Counter[int], loose: Counter[Wanted], *, came: bool
) -> ListedLine:
    line = each.line
    if came:
        return replace(each, line=replace(line, ordered=line.shipped, back_ordered=0))
    done = min(line.back_ordered, filled[each.id])
    carried = min(line.back_ordered - done, loose[each.wanted])
    loose[each.wanted] -= carried
    done += carried
    if not done:
        return each
    settled = replace(
        line, ordered=max(line.shipped, line.ordered - done), back_ordered=line.back_ordered - done
    )
    return replace(each, line=settled)


def match_arrivals(
    arriving: Iterable[ListedLine], coming: Iterable[Coming]
) -> tuple[list[Matched], list[tuple[ListedLine, int]]]:
    """Deal what came to what is open, in the order of the record; the rest fits nothing open.

    Part, hand and length must agree: a similar number closes nothing.
    """
    open_: defaultdict[Wanted, list[tuple[Coming, int]]] = defaultdict(list)
    for each in coming:
        open_[each.wanted].append((each, each.pieces))
    matched: list[Matched] = []
    rest: list[tuple[ListedLine, int]] = []
    for line in arriving:
        left = line.line.shipped
        waiting = open_[line.wanted]
        while left and waiting:
            each, pieces = waiting.pop(0)
            taken = min(left, pieces)
            left -= taken
            matched.append(Matched(line, each, taken))
            if pieces > taken:
                waiting.insert(0, (each, pieces - taken))
        if left:
            rest.append((line, left))
    return matched, rest


def settled_finding(
    packing_list: int | None,
    finding: Finding,
    expected: Iterable[Expected],
    arrivals: Iterable[Arrival],
) -> Finding | None:
    """Return the finding less what was sent for it since; None once all of it came."""
    asked = {each.id for each in expected if each.concerns(packing_list, finding)}
    came = sum(arrival.pieces for arrival in arrivals if arrival.expected in asked)
    if not came:
        return finding
    if came >= finding.pieces:
        return None
    words = f"{finding.words}; {came} came since"
    return replace(finding, pieces=finding.pieces - came, words=words)
