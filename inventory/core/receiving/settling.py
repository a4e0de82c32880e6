"""Shortages and excesses that explain each other: another bag, or the other hand."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from inventory.core.parts.hands import hand_in_words, stem
from inventory.core.receiving.findings import Addressee, Finding, FindingKind

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

_OVER = frozenset({FindingKind.OVER, FindingKind.DUPLICATE})


@dataclass(slots=True)
class _Gap:
    """A shortage or an excess while its pieces are explained."""

    finding: Finding
    left: int
    """Pieces that nothing explains yet."""
    elsewhere: int = 0
    places: list[str] = field(default_factory=list)

    def done(self) -> Finding:
        short = self.finding.kind is FindingKind.SHORT
        told = dict.fromkeys(self.places)
        words = f"; {'over' if short else 'lacking'} in {', '.join(told)}" if told else ""
        return replace(
            self.finding,
            pieces=self.left + self.elsewhere,
            elsewhere=self.elsewhere,
            words=self.finding.words + words,
        )


def settled(shorts: Iterable[Finding], overs: Iterable[Finding]) -> list[Finding]:
    """Return the findings with what explains them, in three rounds.

    First a left one too many and a right one too few in the same bag are a wrong hand; then a
    piece over in one bag and lacking in another is shown with both, since nothing of it is
    claimed; then the other hand anywhere. A wrong hand is told of the piece that came.
    """
    lacking = [_Gap(one, one.pieces) for one in shorts]
    by_stem: defaultdict[str, list[_Gap]] = defaultdict(list)
    more = [_Gap(one, one.pieces) for one in overs]
    for gap in more:
        by_stem[stem(gap.finding.part, gap.finding.hand)].append(gap)
    found: list[Finding] = []
    for explains in (_other_hand_here, _same_elsewhere, _other_hand):
        for short in lacking:
            for over in by_stem.get(stem(short.finding.part, short.finding.hand), ()):
                if explains(short.finding, over.finding):
                    found += _explain(short, over)
    return [*found, *(gap.done() for gap in (*lacking, *more) if gap.left or gap.elsewhere)]


def _explain(short: _Gap, over: _Gap) -> Iterator[Finding]:
    pieces = min(short.left, over.left)
    if not pieces:
        return
    short.left -= pieces
    over.left -= pieces
    if short.finding.hand is not over.finding.hand:
        yield _wrong_hand(short.finding, over.finding, pieces)
        return
    for gap, other in ((short, over), (over, short)):
        gap.elsewhere += pieces
        gap.places.append(_place(other.finding))


def _wrong_hand(short: Finding, over: Finding, pieces: int) -> Finding:
    came, listed = hand_in_words(over.hand), hand_in_words(short.hand)
    line = over if over.row else short
    return replace(
        over,
        kind=FindingKind.WRONG_HAND,
        addressee=Addressee.SUPPLIER,
        sheet=line.sheet,
        row=line.row,
        printed=line.printed,
        description=line.description,
        pieces=pieces,
        words=f"{pieces} came {came}, listed {listed}",
    )


def _place(finding: Finding) -> str:
    return "/".join(part for part in (finding.crate, finding.bag) if part) or "another place"


def _other_hand_here(short: Finding, over: Finding) -> bool:
    return _other_hand(short, over) and (short.crate, short.bag) == (over.crate, over.bag)


def _other_hand(short: Finding, over: Finding) -> bool:
    return short.hand is not over.hand


def _same_elsewhere(short: Finding, over: Finding) -> bool:
    return short.hand is over.hand and short.part == over.part and over.kind in _OVER
