"""From what the jobs answer to what the papers print."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING

from inventory.cli.amounts import amount
from inventory.cli.why_words import why_missing
from inventory.core.errors import InventoryError

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from inventory.core.findings import Finding
    from inventory.documents.page_head import PageHead
    from inventory.jobs.acts import Bench
    from inventory.jobs.looking_up import Picking


def page_head(bench: Bench) -> PageHead:
    """Return the head of a paper printed now."""
    from inventory.documents.page_head import PageHead
    from inventory.jobs.page_facts import page_facts

    facts = page_facts(bench)
    return PageHead(
        kit=bench.kit.name,
        kit_code=bench.kit.code,
        store_id=facts.store_id,
        printed_on=datetime.now().astimezone().date(),
        seal=f"{facts.seal} at {facts.movements}",
    )


def write_file(path: Path, content: bytes) -> None:
    """Write a paper; a folder that isn't there is refused with words."""
    try:
        path.write_bytes(content)
    except OSError as error:
        raise InventoryError(
            f"the file can't be written: {error.strerror}",
            where=str(path),
            remedy="Name a folder that is there and that you may write to.",
        ) from error


def write_findings(bench: Bench, findings: Sequence[Finding], path: Path) -> None:
    """Write the findings as a workbook."""
    from inventory.documents.findings_book import findings_book

    write_file(path, findings_book(page_head(bench), findings))


def write_pick_list(bench: Bench, picking: Picking, path: Path) -> None:
    """Write the pick list of a step as a PDF."""
    from inventory.documents.pick_list import (
        PickLine,
        PickList,
        ShortLine,
        pick_list_pdf,
    )

    lines = tuple(
        PickLine(
            bin=each.place.code,
            part=each.need.printed or each.item.part,
            description=each.need.description,
            hand=each.item.hand,
            quantity=amount(each.need, each.quantity),
            plan_place=" ".join(filter(None, (each.need.sheet, each.need.find_number))),
        )
        for each in picking.fetches
    )
    short = tuple(
        ShortLine(
            part=net.need.printed or net.need.part,
            description=net.need.description,
            hand=net.need.hand,
            quantity=amount(net.need, lacking),
            why=why_missing(net),
        )
        for net, lacking in picking.missing
    )
    picks = PickList(step=picking.step.code, title=picking.step.title, lines=lines, short=short)
    write_file(path, pick_list_pdf(page_head(bench), picks))
