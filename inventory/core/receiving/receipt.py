"""Counted against listed: what came, what is missing, and what came instead."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace
from typing import TYPE_CHECKING

from inventory.core.counted import counted
from inventory.core.frozen import frozen
from inventory.core.items import Measure
from inventory.core.lists.packing import CountRule
from inventory.core.measures.amounts import amount_words
from inventory.core.parts.hands import hand_in_words
from inventory.core.receiving.conditions import condition_findings
from inventory.core.receiving.counts import Remark
from inventory.core.receiving.findings import (
    Addressee,
    Comparison,
    Finding,
    FindingKind,
    finding_of_count,
    finding_of_line,
    worst_first,
)
from inventory.core.receiving.settling import settled
from inventory.core.receiving.tally import tally

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from inventory.core.lists.packing import PackingLine
    from inventory.core.receiving.counts import Count
    from inventory.core.receiving.tally import LineTally, Tally


@frozen
class Packages:
    """The crates of a shipment as they stand today."""

    closed: frozenset[str] | None = None
    """Crates counted to the end: only in these is anything missing. None for all.

    Lines that name no crate stand under an empty name: put it in once every crate is counted.
    """
    missing: frozenset[str] = frozenset()
    """Crates that never came."""
    harmed: frozenset[str] = frozenset()
    """Crates that came open, wet or broken: what they lack may have been lost on the way."""

    def judged(self, line: PackingLine) -> bool:
        """Say whether it is known already what came for the line."""
        counted = self.closed is None or line.crate in self.closed
        return counted and line.crate not in self.missing


def findings(
    lines: Sequence[PackingLine], counts: Sequence[Count], packages: Packages | None = None
) -> list[Finding]:
    """Return every difference between list and counts, and within the list; the worst first.

    A weighed count shows nothing as missing or over that its own doubt could explain.
    """
    packages = packages or Packages()
    tallied = tally(lines, counts)
    judged = [one for one in tallied.lines if packages.judged(one.line)]
    shorts = [_short(one, packages) for one in judged if one.pieces_short]
    overs = [*_strays(lines, counts, tallied), *_overs(judged, counts, tallied)]
    found = [
        *settled(shorts, overs),
        *(_short(one, packages) for one in judged if _absent(one)),
        *_missing_packages(tallied.lines, packages),
    ]
    for line in lines:
        found += _order(line)
    for count, of_line in zip(counts, tallied.line_of, strict=True):
        found += condition_findings(count, of_line)
    return worst_first(found)


def _strays(
    lines: Sequence[PackingLine], counts: Sequence[Count], tallied: Tally
) -> Iterator[Finding]:
    by_part: defaultdict[str, list[PackingLine]] = defaultdict(list)
    for line in lines:
        by_part[line.part].append(line)
    for count, of_line in zip(counts, tallied.line_of, strict=True):
        if of_line is None and count.pieces_counted:
            listed = by_part.get(count.instead_of or count.part, [])
            twice = Remark.DUPLICATE in count.remarks
            kind = FindingKind.DUPLICATE if twice else FindingKind.NOT_LISTED
            yield finding_of_count(kind, count, None, _not_listed_words(count, listed))


def _not_listed_words(count: Count, listed: list[PackingLine]) -> str:
    counted = [line for line in listed if line.count_rule is not CountRule.REFERENCE]
    if not listed:
        return "not on the list"
    if not counted:
        return "on the list for reference only"
    hands = sorted({hand_in_words(line.hand) for line in counted})
    if all(line.hand is not count.hand for line in counted):
        return f"listed {' and '.join(hands)} only, counted {hand_in_words(count.hand)}"
    return "listed in another length only"


def _overs(judged: list[LineTally], counts: Sequence[Count], tallied: Tally) -> Iterator[Finding]:
    twice = {
        line
        for count, line in zip(counts, tallied.line_of, strict=True)
        if line and Remark.DUPLICATE in count.remarks
    }
    for one in judged:
        if one.pieces_over:
            kind = FindingKind.DUPLICATE if one.line in twice else FindingKind.OVER
            words = _words(one)
            if one.line.back_ordered:
                due = amount_words(one.line, one.line.back_ordered)
                words += f"; {due} on back-order: came they already?"
            finding = finding_of_line(kind, one.line, words)
            yield replace(finding, counted=one.pieces_received, pieces=one.pieces_over)


def _absent(one: LineTally) -> bool:
    return one.line.count_rule is CountRule.AS_REQUIRED and not one.pieces_received


def _short(one: LineTally, packages: Packages) -> Finding:
    harmed = one.line.crate in packages.harmed
    return replace(
        finding_of_line(FindingKind.SHORT, one.line, _words(one)),
        counted=one.pieces_received,
        pieces=one.pieces_short,
        addressee=Addressee.BOTH if harmed else Addressee.SUPPLIER,
    )


def _words(one: LineTally) -> str:
    line = one.line
    if line.count_rule is CountRule.AS_REQUIRED:
        return "as required: none found"
    counted = amount_words(line, one.pieces_received)
    if one.about:
        counted = f"about {counted} (\u00b1 {amount_words(line, one.about)})"
    return f"{counted} counted, {amount_words(line, line.shipped)} listed"


def _missing_packages(tallied: Sequence[LineTally], packages: Packages) -> Iterator[Finding]:
    for crate in sorted(packages.missing):
        inside = [one for one in tallied if one.line.crate == crate]
        pieces = [one for one in inside if one.line.measure is Measure.PIECES]
        listed = sum(one.line.shipped for one in pieces)
        received = sum(min(one.pieces_received, one.line.shipped) for one in pieces)
        yield Finding(
            kind=FindingKind.PACKAGE_MISSING,
            addressee=Addressee.CARRIER,
            crate=crate,
            part="",
            listed=listed,
            counted=received,
            pieces=listed - received,
            words=f"crate {crate} never came, with {counted(len(inside), 'line')} of the list",
        )


def _order(line: PackingLine) -> Iterator[Finding]:
    if line.count_rule is not CountRule.COUNTED:
        return
    if line.back_ordered:
        words = f"{amount_words(line, line.back_ordered)} to follow"
        due = finding_of_line(FindingKind.BACK_ORDER, line, words)
        yield replace(due, comparison=Comparison.LIST_ORDER, pieces=line.back_ordered)
    left = line.ordered - line.shipped - line.back_ordered
    if left > 0:
        words = f"{amount_words(line, left)} of {amount_words(line, line.ordered)} ordered"
        words += " neither shipped nor to follow"
        short = finding_of_line(FindingKind.SHORT, line, words)
        yield replace(short, comparison=Comparison.LIST_ORDER, pieces=left)
    if line.shipped > line.ordered:
        words = f"{amount_words(line, line.shipped)} shipped by the list,"
        words += f" {amount_words(line, line.ordered)} ordered"
        over = finding_of_line(FindingKind.OVER, line, words)
        pieces = line.shipped - line.ordered
        yield replace(over, comparison=Comparison.LIST_ORDER, pieces=pieces)
