"""Discrepancy reports: put together from what was found, numbered, and kept as they are."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError, NotFoundError
from inventory.core.frozen import frozen
from inventory.core.receiving.findings import Addressee
from inventory.core.receiving.reporting import Letter, LetterPhoto, letter_text
from inventory.jobs.acts import acting
from inventory.jobs.again import tried_again
from inventory.jobs.receiving.claiming import claims_within
from inventory.jobs.receiving.letter_lines import due_lines, letter_lines
from inventory.store.receiving.packing_lists import saved_lists
from inventory.store.receiving.photo_records import all_photos
from inventory.store.receiving.reports import Report, add_report, all_reports

if TYPE_CHECKING:
    from collections.abc import Sequence

    from inventory.core.receiving.findings import Finding
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench
    from inventory.jobs.receiving.claiming import ClaimToday
    from inventory.store.kits import Kit
    from inventory.store.opening.database import Connection

__all__ = [
    "Addressee",
    "Report",
    "Wording",
    "default_text",
    "report_by_number",
    "report_for",
    "report_numbered",
    "reports",
]


class NobodyNamedError(InventoryError):
    """Neither a letter before nor the delivery says whom to write to."""


@frozen(kw_only=True)
class Wording:
    """What the person says in a letter; empty is what was said last, or our own words."""

    recipient: str = ""
    """Name and address, lines separated by line feeds."""
    sender: str = ""
    text: str = ""


@tried_again
def report_for(
    bench: Bench, addressee: Addressee, wording: Wording, slip: Slip, delivery: int = 0
) -> Report:
    """Keep a report of all that one side is to be told about a delivery; return it numbered.

    Where the newest report says the same already, that one is returned and nothing is recorded.
    """
    with bench.store.reading() as db:
        claim = _claim(db, bench.kit, addressee, delivery, slip)
        if claim.report is not None and claim.report.letter == _letter(
            db, bench.kit, claim, wording, slip
        ):
            return claim.report
    with acting(bench, "claims report", slip) as act:
        claim = _claim(act.db, bench.kit, addressee, delivery, slip)
        letter = _letter(act.db, bench.kit, claim, wording, slip)
        number = claim.delivery.number if claim.delivery else None
        written = add_report(act.db, bench.kit.id, act.recorded.id, number, letter)
        return report_numbered(act.db, bench.kit, written)


def reports(bench: Bench) -> list[Report]:
    """Return the reports in the order of their numbers."""
    with bench.store.reading() as db:
        return all_reports(db, bench.kit.id)


def report_by_number(bench: Bench, number: int) -> Report:
    """Return one report."""
    with bench.store.reading() as db:
        return report_numbered(db, bench.kit, number)


def report_numbered(db: Connection, kit: Kit, number: int) -> Report:
    """Return one report; an unknown number is refused."""
    for each in all_reports(db, kit.id):
        if each.number == number:
            return each
    raise NotFoundError(f"there is no report {number}", remedy="Look: kitwright claims reports")


def default_text(bench: Bench, addressee: Addressee) -> str:
    """Return the words that the next letter to one side begins with: those written last."""
    with bench.store.reading() as db:
        return _last(db, bench.kit, addressee).text or letter_text(addressee)


def _claim(db: Connection, kit: Kit, addressee: Addressee, delivery: int, slip: Slip) -> ClaimToday:
    found = [
        each
        for each in claims_within(db, kit, slip.happened_on)
        if each.claim.addressee is addressee
        and (not delivery or (each.delivery is not None and each.delivery.number == delivery))
    ]
    if len(found) == 1:
        return found[0]
    if not found:
        raise NotFoundError(
            f"there is nothing to tell the {addressee}", remedy="Look: kitwright claims"
        )
    numbers = ", ".join(str(each.delivery.number) for each in found if each.delivery)
    raise InventoryError(
        f"the {addressee} is to be told about several deliveries: {numbers}",
        remedy="Say which one with --delivery N; tie the lists with `kitwright delivery lists`.",
    )


def _last(db: Connection, kit: Kit, addressee: Addressee) -> Wording:
    """Return the wording of the newest letter to one side."""
    for each in reversed(all_reports(db, kit.id)):
        if each.addressee is addressee:
            letter = each.letter
            return Wording(recipient=letter.recipient, sender=letter.sender, text=letter.text)
    return Wording()


def _letter(db: Connection, kit: Kit, claim: ClaimToday, said: Wording, slip: Slip) -> Letter:
    addressee = claim.claim.addressee
    last = _last(db, kit, addressee)
    facts = claim.delivery.facts if claim.delivery else None
    to_carrier = addressee is Addressee.CARRIER
    shipper = (facts.supplier if facts else "") or _supplier(db, kit)
    carrier = facts.carrier if facts else ""
    recipient = said.recipient or last.recipient or (carrier if to_carrier else shipper)
    if not recipient:
        raise NobodyNamedError(f"who is the {addressee}?", remedy="Say name and address with --to.")
    return Letter(
        addressee=addressee,
        recipient=recipient,
        sender=said.sender or last.sender or slip.person or kit.name,
        text=said.text or last.text or letter_text(addressee),
        shipper=shipper,
        order=facts.order if facts else "",
        invoice=facts.invoice if facts else "",
        shipment=facts.shipment if facts else "",
        carrier=carrier,
        delivered_on=facts.delivered_on if facts else None,
        noted_on_receipt=claim.delivery.noted_on_receipt if claim.delivery else "",
        lines=letter_lines(db, kit, claim),
        due=() if to_carrier else due_lines(db, kit, claim),
        photos=_photos(db, kit, claim),
    )


def _supplier(db: Connection, kit: Kit) -> str:
    names = {saved.supplier for saved in saved_lists(db, kit.id) if saved.supplier}
    return names.pop() if len(names) == 1 else ""


def _photos(db: Connection, kit: Kit, claim: ClaimToday) -> tuple[LetterPhoto, ...]:
    """Return the photographs of the delivery, and of the crates and parts it is about."""
    findings: Sequence[Finding] = claim.claim.findings
    crates = {each.crate for each in findings if each.crate}
    parts = {each.part for each in findings if each.part}
    number = claim.delivery.number if claim.delivery else None
    shown = {
        each.kept.sha256: LetterPhoto(
            each.kept.sha256,
            each.kept.kind,
            " ".join(word for word in (each.of.crate, each.of.part, each.of.caption) if word)
            or each.kept.name,
        )
        for each in all_photos(db, kit.id)
        if (number is not None and each.of.delivery == number)
        or each.of.crate in crates
        or each.of.part in parts
    }
    return tuple(shown.values())
