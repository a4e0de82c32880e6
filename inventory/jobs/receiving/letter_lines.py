"""The lines of a report: each finding with its evidence, and what is due beside them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.lists.listed_numbers import listed_number, unit_word
from inventory.core.measures.amounts import amount_words
from inventory.core.parts.hands import stem
from inventory.core.receiving.findings import FindingKind
from inventory.core.receiving.reporting import REPLACED, LetterDue, LetterLine, asked_of, code_of
from inventory.jobs.receiving.still_coming import receipt_within

if TYPE_CHECKING:
    from collections.abc import Iterator

    from inventory.core.lists.packing import PackingLine
    from inventory.core.receiving.arrivals import ListedLine
    from inventory.core.receiving.findings import Finding
    from inventory.core.receiving.still_to_come import Coming
    from inventory.jobs.receiving.claiming import ClaimToday
    from inventory.jobs.receiving.findings_today import PlacedFinding
    from inventory.jobs.receiving.still_coming import Receipt
    from inventory.store.kits import Kit
    from inventory.store.opening.database import Connection
    from inventory.store.receiving.counts import RecordedCount


def letter_lines(db: Connection, kit: Kit, claim: ClaimToday) -> tuple[LetterLine, ...]:
    """Return the claim's findings as they are put to the addressee.

    Where a part of the wrong hand came, the part that should have come stands on a line of its
    own beside it, as the filling rules of the US Standard Form 364 ask.
    """
    receipt = receipt_within(db, kit)
    lines: list[LetterLine] = []
    for placed in claim.placed:
        lines.append(_line(claim, placed, receipt))
        if placed.finding.kind is FindingKind.WRONG_HAND:
            lines += _should_have_come(placed, receipt)
    return tuple(lines)


def _line(claim: ClaimToday, placed: PlacedFinding, receipt: Receipt) -> LetterLine:
    finding = placed.finding
    listed = _listed(receipt, placed)
    wrong_hand = finding.kind is FindingKind.WRONG_HAND
    asked = FindingKind.NOT_LISTED if wrong_hand else finding.kind
    pieces = finding.pieces - finding.elsewhere
    return LetterLine(
        kind=finding.kind,
        part=finding.part,
        printed=finding.printed or finding.part,
        description=finding.description,
        hand=finding.hand,
        length=listed.length if listed else 0,
        pieces=pieces,
        to_send=pieces if finding.kind in REPLACED and not wrong_hand else 0,
        packing_list=placed.packing_list,
        sheet=finding.sheet,
        row=finding.row,
        crate=finding.crate,
        bag=finding.bag,
        unit=unit_word(listed),
        shipped=listed_number(listed, finding.listed),
        received=listed_number(listed, finding.counted),
        difference=listed_number(listed, pieces),
        words=finding.words,
        evidence=_evidence(receipt, finding, listed),
        wanted=asked_of(claim.claim.addressee, asked),
        code=code_of(finding),
    )


def _should_have_come(placed: PlacedFinding, receipt: Receipt) -> Iterator[LetterLine]:
    """Give the listed part of the other hand, where exactly one stands beside the one that came."""
    finding = placed.finding
    bare = stem(finding.part, finding.hand)
    others = [
        each.line
        for each in receipt.lines
        if each.packing_list == placed.packing_list
        and each.line.hand is not finding.hand
        and stem(each.line.part, each.line.hand) == bare
    ]
    if len({(line.part, line.hand) for line in others}) == 1:
        line = others[0]
        yield LetterLine(
            kind=FindingKind.WRONG_HAND,
            part=line.part,
            printed=line.printed,
            description=line.description,
            hand=line.hand,
            pieces=finding.pieces,
            to_send=finding.pieces,
            packing_list=placed.packing_list,
            sheet=finding.sheet,
            row=finding.row,
            crate=finding.crate,
            bag=finding.bag,
            unit=unit_word(line),
            shipped=listed_number(line, line.shipped),
            difference=listed_number(line, finding.pieces),
            words="listed, and didn't come",
            wanted="send it",
        )


def _listed(receipt: Receipt, placed: PlacedFinding) -> PackingLine | None:
    finding = placed.finding
    same = (each.line for each in receipt.lines if _stands_there(each, placed))
    found = list(same)
    of_hand = [line for line in found if (line.part, line.hand) == (finding.part, finding.hand)]
    return next(iter(of_hand or found), None)


def _stands_there(each: ListedLine, placed: PlacedFinding) -> bool:
    finding = placed.finding
    return bool(finding.row) and (each.packing_list, each.line.sheet, each.line.row) == (
        placed.packing_list, finding.sheet, finding.row,
    )  # fmt: skip


def _evidence(receipt: Receipt, finding: Finding, listed: PackingLine | None) -> str:
    """Return who counted it, when and how; empty where nobody found any."""
    return "; ".join(
        _told(each, listed)
        for each in receipt.counts
        if (each.count.part, each.count.hand, each.count.crate, each.count.bag)
        == (finding.part, finding.hand, finding.crate, finding.bag)
    )


def _told(each: RecordedCount, listed: PackingLine | None) -> str:
    count = each.count
    amount, about = (
        amount_words(listed, quantity) if listed else str(quantity)
        for quantity in (count.pieces_counted, count.about)
    )
    by = f" by {count.by}" if count.by else ""
    on = f" on {count.on.isoformat()}" if count.on else ""
    doubt = f", give or take {about}" if count.about else ""
    lot = f", lot {count.lot}" if count.lot else ""
    note = f" ({each.note})" if each.note else ""
    return f"{count.method} {amount}{by}{on}{doubt}{lot}{note}"


def due_lines(db: Connection, kit: Kit, claim: ClaimToday) -> tuple[LetterDue, ...]:
    """Return what is on back-order by the delivery's own lists: due, not claimed."""
    receipt = receipt_within(db, kit)
    lines = {each.id: each for each in receipt.lines}
    lists = {each.packing_list for each in claim.placed}
    lists |= set(claim.delivery.lists) if claim.delivery else set()
    return tuple(
        _due(lines[each.line], each)
        for each in receipt.coming
        if each.line is not None and lines[each.line].packing_list in lists
    )


def _due(listed: ListedLine, coming: Coming) -> LetterDue:
    latest = f" to {coming.latest.isoformat()}" if coming.latest else ""
    return LetterDue(
        printed=coming.printed,
        description=coming.description,
        hand=coming.wanted.hand,
        quantity=amount_words(listed.line, coming.pieces),
        promised=(coming.promised.isoformat() if coming.promised else "no date") + latest,
    )
