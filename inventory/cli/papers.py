"""From what the jobs answer to what the papers print."""

from __future__ import annotations

import os
from datetime import datetime
from typing import TYPE_CHECKING

from inventory.cli import context
from inventory.cli.amounts import amount
from inventory.cli.why_words import why_missing
from inventory.core.errors import InventoryError

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from pathlib import Path

    from inventory.core.planning.picking import Fetch
    from inventory.core.planning.shortage import NetNeed
    from inventory.core.receiving.findings import Finding
    from inventory.documents.page_head import PageHead, PaperSize
    from inventory.documents.pick_list import PickLine, ShortLine
    from inventory.documents.tables import Table
    from inventory.jobs.acts import Bench
    from inventory.jobs.bench.looking_up import Picking


def page_head(bench: Bench) -> PageHead:
    """Return the head of a paper printed now."""
    from inventory.documents.page_head import PageHead
    from inventory.jobs.record.page_facts import page_facts

    facts = page_facts(bench)
    return PageHead(
        kit=bench.kit.name,
        kit_code=bench.kit.code,
        store_id=facts.store_id,
        printed_on=datetime.now().astimezone().date(),
        seal=f"{facts.seal} at {facts.movements}",
        paper=paper_size(),
    )


def paper_size() -> PaperSize:
    """Return what is printed on: `--paper`, else KITWRIGHT_PAPER, else A4."""
    from inventory.documents.page_head import PaperSize

    word = context.typed.paper or os.environ.get("KITWRIGHT_PAPER", "") or PaperSize.A4
    try:
        return PaperSize(word.strip().lower())
    except ValueError:
        raise InventoryError(
            f"{word!r} is no paper size", where="--paper", remedy="Say a4 or letter."
        ) from None


def check_ending(path: Path, *endings: str) -> str:
    """Return how a paper's name ends; refused where it isn't written in that form."""
    ending = path.suffix.lower()
    if ending not in endings:
        *others, last = endings
        raise InventoryError(
            f"{path.name} isn't written {f'as {path.suffix}' if ending else 'without an ending'}",
            where="-o",
            remedy=f"End it in {', '.join(others)} or {last}." if others else f"End it in {last}.",
        )
    return ending


def write_pdf(path: Path, content: Callable[[], bytes]) -> None:
    """Write a paper that there is as a PDF only; a name that says otherwise is refused."""
    check_ending(path, ".pdf")
    write_file(path, content())


def write_table(
    path: Path, head: PageHead, pdf: Callable[[], bytes], table: Callable[[], Table]
) -> None:
    """Write a paper as its file name says: .pdf to read, .xlsx or .csv to work with."""
    from inventory.documents.tables import to_csv, to_xlsx

    match check_ending(path, ".pdf", ".xlsx", ".csv"):
        case ".pdf":
            content = pdf()
        case ".xlsx":
            content = to_xlsx(head, [table()])
        case _:
            content = to_csv(table())
    write_file(path, content)


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
    """Write the findings as .xlsx or .csv; a letter to send is what claims are for."""
    from inventory.documents.findings_book import findings_table

    def no_pdf() -> bytes:
        raise InventoryError(
            "findings aren't written as a PDF",
            where="-o",
            remedy="End it in .xlsx or .csv; kitwright claims report writes to one addressee.",
        )

    write_table(path, page_head(bench), no_pdf, lambda: findings_table(findings))


def write_pick_list(bench: Bench, picking: Picking, path: Path) -> None:
    """Write the pick list of a step, with the code that starts the scan loop at this step."""
    from inventory.documents.pick_list import PickList, pick_list_pdf, pick_table
    from inventory.jobs.bench.labelling import numbered_steps

    step = picking.step
    picks = PickList(
        step=step.code,
        title=step.title,
        step_id=numbered_steps(bench, [step.code])[0][1],
        lines=tuple(map(_pick_line, picking.fetches)),
        short=tuple(_short_line(net, lacking) for net, lacking in picking.missing),
    )
    head = page_head(bench)
    write_table(path, head, lambda: pick_list_pdf(head, picks), lambda: pick_table(picks))


def _pick_line(each: Fetch) -> PickLine:
    from inventory.documents.pick_list import PickLine

    return PickLine(
        bin=each.place.code,
        part=each.need.printed or each.item.part,
        description=each.need.description,
        hand=each.item.hand,
        quantity=amount(each.need, each.quantity),
        plan_place=" ".join(filter(None, (each.need.sheet, each.need.find_number))),
    )


def _short_line(net: NetNeed, lacking: int) -> ShortLine:
    from inventory.documents.pick_list import ShortLine

    return ShortLine(
        part=net.need.printed or net.need.part,
        description=net.need.description,
        hand=net.need.hand,
        quantity=amount(net.need, lacking),
        why=why_missing(net),
    )
