"""From what the jobs know of a delivery to its checklist."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.cli.papers import page_head, write_file
from inventory.core.errors import InventoryError

if TYPE_CHECKING:
    from pathlib import Path

    from inventory.core.receiving.delivery import Delivery
    from inventory.jobs.acts import Bench


def write_checklist(bench: Bench, delivery: Delivery | None, path: Path) -> None:
    """Write the receiving checklist; what isn't known yet is left to be written in by hand."""
    from inventory.core.receiving.delivery import DeliveryFacts
    from inventory.documents.receiving_checklist import (
        ExpectedDelivery,
        receiving_checklist_pdf,
    )
    from inventory.jobs.receiving.deliveries import crates_of, first_notice_by

    if path.suffix.casefold() != ".pdf":
        raise InventoryError(
            f"the checklist isn't written as {path.name!r}", remedy="End the file's name in .pdf."
        )
    facts = delivery.facts if delivery else DeliveryFacts()
    expected = ExpectedDelivery(
        supplier=facts.supplier,
        order=facts.order,
        carrier=facts.carrier,
        shipment=facts.shipment,
        place=facts.place,
        packages=facts.packages_advised,
        crates=crates_of(bench, delivery),
        first_notice_by=first_notice_by(facts),
    )
    write_file(path, receiving_checklist_pdf(page_head(bench), expected))
