"""What is wrong with pieces that came: damage, revision, date, marking, papers."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from inventory.core.measures.amounts import amount_words
from inventory.core.receiving.counts import Remark
from inventory.core.receiving.findings import Addressee, Finding, FindingKind, finding_of_count

if TYPE_CHECKING:
    from collections.abc import Iterator

    from inventory.core.lists.packing import PackingLine
    from inventory.core.receiving.counts import Count


def condition_findings(count: Count, line: PackingLine | None) -> list[Finding]:
    """Return what one count says of its pieces besides their number.

    `line` is the line of the list they were counted for, None where the list has none.
    """
    return [*_harm(count, line), *_identity(count, line), *_marks(count, line)]


def _harm(count: Count, line: PackingLine | None) -> Iterator[Finding]:
    if count.pieces_damaged:
        made_badly = Remark.DEFECTIVE in count.remarks
        kind = FindingKind.DEFECTIVE if made_badly else FindingKind.DAMAGED
        words = f"{_some(count, count.pieces_damaged, line)} {kind}"
        found = finding_of_count(kind, count, line, words)
        yield replace(
            found,
            pieces=count.pieces_damaged,
            addressee=Addressee.SUPPLIER if made_badly else Addressee.CARRIER,
        )


def _identity(count: Count, line: PackingLine | None) -> Iterator[Finding]:
    if count.pieces_wrong:
        pieces = "piece" if count.pieces_wrong == 1 else "pieces"
        words = f"{count.pieces_wrong} {pieces} of another part lay in its place"
        found = finding_of_count(FindingKind.WRONG_PART, count, line, words)
        yield replace(found, pieces=count.pieces_wrong)
    if not count.pieces_counted or line is None:
        return
    if count.revision and line.revision and count.revision != line.revision:
        words = f"revision {count.revision} came, {line.revision} is listed"
        yield finding_of_count(FindingKind.WRONG_REVISION, count, line, words)
    if count.part != line.part:
        words = f"supplied as {count.part}, listed as {line.printed}: nobody has decided yet"
        yield finding_of_count(FindingKind.SUBSTITUTE, count, line, words)


def _marks(count: Count, line: PackingLine | None) -> Iterator[Finding]:
    if not count.pieces_counted:
        return
    if count.expires and count.on and count.expires < count.on:
        words = f"expired on {count.expires.isoformat()}, counted on {count.on.isoformat()}"
        yield finding_of_count(FindingKind.EXPIRED, count, line, words)
    if Remark.UNMARKED in count.remarks:
        words = "no part number on the pieces or their bag"
        if Remark.MEASURED in count.remarks:
            words += "; identified by measurement"
        yield finding_of_count(FindingKind.UNMARKED, count, line, words)
    if Remark.NO_PAPERS in count.remarks:
        words = "the papers that belong to it didn't come"
        yield finding_of_count(FindingKind.PAPERS_MISSING, count, line, words)


def _some(count: Count, quantity: int, line: PackingLine | None) -> str:
    if line is None:
        return f"{quantity} of {count.pieces_counted} counted:"
    counted = amount_words(line, count.pieces_counted)
    return f"{amount_words(line, quantity)} of {counted} counted:"
