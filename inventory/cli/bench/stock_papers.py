"""Bin map, stock list and step sheet, from what the jobs answer to what is printed."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace
from typing import TYPE_CHECKING

from inventory.cli.amounts import amount, quantity_words
from inventory.cli.papers import page_head, write_table
from inventory.cli.show import kind_words
from inventory.core.items import Hand

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from pathlib import Path

    from inventory.core.items import Item, Measure
    from inventory.core.planning.plan import Step
    from inventory.core.planning.shortage import NetNeed
    from inventory.documents.step_sheet import SheetNeed
    from inventory.jobs.acts import Bench
    from inventory.jobs.bench.looking_up import StockRow


def write_bin_map(bench: Bench, rows: Sequence[StockRow], path: Path) -> None:
    """Write what lies in which bin, shelf by shelf."""
    from inventory.documents.bin_map import Lying, MappedBin, bin_map_pdf, bin_map_table

    bins = [
        MappedBin(
            shelf=row.shelf,
            name=row.place.code,
            contents=tuple(
                Lying(
                    part=row.parts[lies.item.part].printed,
                    quantity=quantity_words(lies.quantity, row.parts[lies.item.part].measure),
                    hand=lies.item.hand,
                    description=_kind_and(lies.item, row.parts[lies.item.part].description),
                )
                for lies in row.lying
            ),
        )
        for row in rows
        if row.place.kind == "bin"
    ]
    head = page_head(bench)
    write_table(path, head, lambda: bin_map_pdf(head, bins), lambda: bin_map_table(bins))


def write_stock_list(bench: Bench, rows: Sequence[StockRow], path: Path) -> None:
    """Write every item in every bin, crate and on hold, by part number."""
    from inventory.documents.stock_list import StockLine, stock_list_pdf, stock_table

    lines = [
        StockLine(
            **_quantity_and_unit(lies.quantity, row.parts[lies.item.part].measure),
            part=row.parts[lies.item.part].printed,
            description=row.parts[lies.item.part].description,
            hand=lies.item.hand,
            lot=lies.item.lot,
            state=kind_words(_without_hand_and_lot(lies.item)),
            place=str(row.place),
            note="on hold" if row.place.kind == "hold" else "",
        )
        for row in rows
        for lies in row.lying
    ]
    head = page_head(bench)
    write_table(path, head, lambda: stock_list_pdf(head, lines), lambda: stock_table(lines))


def _quantity_and_unit(quantity: int, measure: Measure) -> dict[str, str]:
    number, _, unit = quantity_words(quantity, measure).partition(" ")
    return {"quantity": number, "unit": unit or "pieces"}


def _kind_and(item: Item, description: str) -> str:
    """Return the description behind what else tells the item from others of its number."""
    return " · ".join(filter(None, (kind_words(replace(item, hand=Hand.NONE)), description)))


def _without_hand_and_lot(item: Item) -> Item:
    return replace(item, hand=Hand.NONE, lot="")


def write_step_sheet(bench: Bench, step: Step, needs: Sequence[NetNeed], path: Path) -> None:
    """Write the sheet that goes to the bench with a step."""
    from inventory.documents.step_sheet import StepSheet, step_sheet_pdf, step_table
    from inventory.jobs.bench.labelling import numbered_steps
    from inventory.jobs.bench.looking_up import pick

    where: defaultdict[tuple[str, Hand, int], list[str]] = defaultdict(list)
    for fetch in pick(bench, step.code).fetches:
        need = fetch.need
        where[need.part, need.hand, need.length].append(
            f"{fetch.place.code}: {amount(need, fetch.quantity, bare=True)}"
        )
    rows = tuple(_sheet_need(net, where) for net in needs if net.need.kind != "tool")
    tools = tuple(net.need.printed or net.need.part for net in needs if net.need.kind == "tool")
    sheet = StepSheet(
        step=step.code,
        title=step.title,
        section=step.section,
        step_id=numbered_steps(bench, [step.code])[0][1],
        after=step.after,
        needs=rows,
        tools=tools,
    )
    head = page_head(bench)
    write_table(path, head, lambda: step_sheet_pdf(head, sheet), lambda: step_table(sheet))


def _sheet_need(net: NetNeed, where: Mapping[tuple[str, Hand, int], Sequence[str]]) -> SheetNeed:
    from inventory.documents.step_sheet import SheetNeed

    need = net.need
    return SheetNeed(
        part=need.printed or need.part,
        description=need.description,
        hand=need.hand,
        quantity="as required" if need.as_required else amount(need, need.quantity),
        lies_in=", ".join(where.get((need.part, need.hand, need.length), ())),
        short=amount(need, net.short, bare=True) if net.short else "",
        plan_place=" ".join(filter(None, (need.sheet, need.find_number))),
        note=need.prepared,
    )
