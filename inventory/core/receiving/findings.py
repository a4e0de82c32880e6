"""Findings: what differs between goods, list, order and plan, and whom it concerns."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.items import Hand

if TYPE_CHECKING:
    from collections.abc import Iterable

    from inventory.core.lists.packing import PackingLine
    from inventory.core.receiving.counts import Count


class FindingKind(StrEnum):
    """The kinds of difference, the worst first."""

    PACKAGE_MISSING = "package missing"
    WRONG_HAND = "wrong hand"
    WRONG_PART = "wrong part"
    DAMAGED = "damaged"
    DEFECTIVE = "defective"
    SHORT = "short"
    EXPIRED = "expired"
    WRONG_REVISION = "wrong revision"
    SUBSTITUTE = "substitute"
    UNMARKED = "unmarked"
    PAPERS_MISSING = "papers missing"
    NOT_LISTED = "not listed"
    DUPLICATE = "duplicate"
    OVER = "over"
    BACK_ORDER = "back-order due"
    """Still to come by the supplier's own list: shown, never claimed."""


class Comparison(StrEnum):
    """Which two things differ: less than listed is another matter than less than ordered."""

    COUNT_LIST = "counted against the list"
    LIST_ORDER = "listed against the order"
    LIST_PLAN = "listed against the plan"


class Addressee(StrEnum):
    """Whom a finding goes to."""

    CARRIER = "carrier"
    SUPPLIER = "supplier"
    BOTH = "carrier and supplier"
    """The crate came harmed, so that nobody can say on whose side the piece was lost."""


@frozen(kw_only=True)
class Finding:
    """One difference; quantities are pieces, or the smallest unit of the line's measure."""

    kind: FindingKind
    comparison: Comparison = Comparison.COUNT_LIST
    addressee: Addressee = Addressee.SUPPLIER
    sheet: str = ""
    row: int = 0
    """0 where no line of the list is concerned."""
    crate: str = ""
    bag: str = ""
    part: str
    printed: str = ""
    description: str = ""
    hand: Hand = Hand.NONE
    listed: int = 0
    counted: int = 0
    pieces: int = 0
    """How many pieces the difference is."""
    elsewhere: int = 0
    """How many of these are over, or lacking, in another crate or bag: put right, not claimed."""
    words: str

    @property
    def claimed(self) -> bool:
        """Whether it is claimed; what is on back-order is only due."""
        settled = bool(self.pieces) and self.elsewhere >= self.pieces
        return self.kind is not FindingKind.BACK_ORDER and not settled

    @property
    def codes(self) -> OpenCodes:
        """The codes of open lists for this difference."""
        return _CODES.get((self.kind, self.comparison), OpenCodes())


@frozen
class OpenCodes:
    """Codes of public lists for a difference; empty where no printed code was read for it."""

    sf364: str = ""
    """US Standard Form 364, discrepancy code as printed on the form."""
    edifact: str = ""
    """UN/EDIFACT data element 4221 (directories D.97A to D.00A)."""


# The form's codes for wrong items (W...) and other matters (Z...) were not read, so none is given;
# C3 and S3 are for parcel post only. Sources: the two lists named above.
_CODES = {
    (FindingKind.DAMAGED, Comparison.COUNT_LIST): OpenCodes("C1", "AF"),
    (FindingKind.DEFECTIVE, Comparison.COUNT_LIST): OpenCodes("Q1"),
    (FindingKind.SHORT, Comparison.COUNT_LIST): OpenCodes("S1"),
    (FindingKind.SHORT, Comparison.LIST_ORDER): OpenCodes("S2", "CP"),
    (FindingKind.EXPIRED, Comparison.COUNT_LIST): OpenCodes("C2"),
    (FindingKind.SUBSTITUTE, Comparison.COUNT_LIST): OpenCodes("", "IS"),
    (FindingKind.UNMARKED, Comparison.COUNT_LIST): OpenCodes("T1"),
    (FindingKind.PAPERS_MISSING, Comparison.COUNT_LIST): OpenCodes("D1"),
    (FindingKind.NOT_LISTED, Comparison.COUNT_LIST): OpenCodes("", "AE"),
    (FindingKind.DUPLICATE, Comparison.COUNT_LIST): OpenCodes("O3"),
    (FindingKind.OVER, Comparison.COUNT_LIST): OpenCodes("O1", "AC"),
    (FindingKind.OVER, Comparison.LIST_ORDER): OpenCodes("O2", "AC"),
    (FindingKind.BACK_ORDER, Comparison.LIST_ORDER): OpenCodes("", "BP"),
}

_RANK = {kind: rank for rank, kind in enumerate(FindingKind)}


def finding_of_line(kind: FindingKind, line: PackingLine, words: str) -> Finding:
    """Return a finding about a line of the list; its quantities are still 0."""
    return Finding(
        kind=kind,
        sheet=line.sheet,
        row=line.row,
        crate=line.crate,
        bag=line.bag,
        part=line.part,
        printed=line.printed,
        description=line.description,
        hand=line.hand,
        listed=line.shipped,
        words=words,
    )


def finding_of_count(
    kind: FindingKind, count: Count, line: PackingLine | None, words: str
) -> Finding:
    """Return a finding about what was counted, in the crate and bag where it lay."""
    return Finding(
        kind=kind,
        sheet=line.sheet if line else "",
        row=line.row if line else 0,
        crate=count.crate,
        bag=count.bag,
        part=count.part,
        printed=line.printed if line and line.part == count.part else count.part,
        description=line.description if line else "",
        hand=count.hand,
        listed=line.shipped if line else 0,
        counted=count.pieces_counted,
        pieces=count.pieces_counted,
        words=words,
    )


def worst_first(findings: Iterable[Finding]) -> list[Finding]:
    """Return the findings by kind, the worst first, then in the order of the list."""
    return sorted(findings, key=lambda one: (_RANK[one.kind], one.sheet, one.row, one.part))
