"""Each kind of label, from what the jobs answer to what the papers print."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from inventory.cli import context
from inventory.core.places import PlaceKind

if TYPE_CHECKING:
    from collections.abc import Sequence

    from inventory.documents.label_sheet import LabelSheet, PrintedLabels
    from inventory.documents.part_labels import PartLabel
    from inventory.documents.tags import Tag
    from inventory.jobs.labelling import NumberedItem


@dataclass(frozen=True, slots=True)
class MadeLabels:
    """A PDF of labels, and what is to be said about it."""

    pdf: bytes
    told: str
    remarks: tuple[str, ...] = ()
    next_free: int = 0


def made(
    kind: str, names: Sequence[str], sheet: LabelSheet | None, *, tiny: bool = False
) -> MadeLabels:
    """Return the labels of a kind, of the things named or of all."""
    if kind == "bins":
        return _bins(names, sheet, tiny=tiny)
    makers = {
        "bags": _bags,
        "parts": _parts,
        "steps": _steps,
        "crates": _crates,
        "remnants": _remnants,
        "tags": _tags,
    }
    maker = makers.get(kind)
    return maker(names, sheet) if maker else _page(kind, sheet)


def _counted(number: int, printed: PrintedLabels, what: str) -> MadeLabels:
    return MadeLabels(printed.pdf, f"{number} {what}", printed.remarks, printed.next_free)


def _bins(names: Sequence[str], sheet: LabelSheet | None, *, tiny: bool) -> MadeLabels:
    from inventory.documents.bin_labels import BinLabel, bin_labels
    from inventory.jobs.labelling import numbered_bins

    wanted = []
    for numbered in numbered_bins(context.open_bench(), names):
        label = BinLabel(own_id=numbered.own_id, name=numbered.place.code)
        if len(numbered.contents) == 1:
            item, part = numbered.contents[0]
            label = BinLabel(
                own_id=numbered.own_id,
                name=numbered.place.code,
                part=part.printed,
                description=part.description,
                hand=item.hand,
            )
        wanted.append(label)
    return _counted(len(wanted), bin_labels(wanted, sheet, tiny=tiny), "bin labels")


def _part_label(numbered: NumberedItem) -> PartLabel:
    from inventory.documents.part_labels import PartLabel

    return PartLabel(
        part=numbered.part.printed,
        own_id=numbered.own_id,
        description=numbered.part.description,
        hand=numbered.item.hand,
        lot=numbered.item.lot,
        steps=", ".join(numbered.steps),
    )


def _parts(names: Sequence[str], sheet: LabelSheet | None) -> MadeLabels:
    from inventory.documents.part_labels import part_labels
    from inventory.jobs.labelling import numbered_items

    found = numbered_items(context.open_bench(), names, [PlaceKind.BIN, PlaceKind.CRATE])
    return _counted(len(found), part_labels(map(_part_label, found), sheet), "part labels")


def _bags(names: Sequence[str], sheet: LabelSheet | None) -> MadeLabels:
    from inventory.documents.part_labels import part_labels
    from inventory.jobs.labelling import numbered_items

    kinds = [PlaceKind.BIN, PlaceKind.CRATE]
    found = numbered_items(context.open_bench(), names, kinds, bags=True)
    return _counted(len(found), part_labels(map(_part_label, found), sheet), "bag labels")


def _steps(names: Sequence[str], sheet: LabelSheet | None) -> MadeLabels:
    from inventory.documents.step_labels import StepLabel, step_labels
    from inventory.jobs.labelling import numbered_steps

    wanted = [
        StepLabel(own_id=own_id, step=step.code, title=step.title, section=step.section)
        for step, own_id in numbered_steps(context.open_bench(), names)
    ]
    return _counted(len(wanted), step_labels(wanted, sheet), "step labels")


def _crates(names: Sequence[str], sheet: LabelSheet | None) -> MadeLabels:
    from inventory.documents.step_labels import CrateLabel, crate_labels
    from inventory.jobs.labelling import numbered_crates

    wanted = [
        CrateLabel(own_id=own_id, crate=crate)
        for crate, own_id in numbered_crates(context.open_bench(), names)
    ]
    return _counted(len(wanted), crate_labels(wanted, sheet), "crate labels")


def _remnants(names: Sequence[str], sheet: LabelSheet | None) -> MadeLabels:
    from inventory.core.lengths import show_length
    from inventory.documents.part_labels import RemnantLabel, remnant_labels
    from inventory.jobs.labelling import numbered_items

    found = [
        each
        for each in numbered_items(context.open_bench(), names, [PlaceKind.BIN])
        if each.item.length
    ]
    wanted = [
        RemnantLabel(
            own_id=each.own_id,
            stock=each.part.printed,
            section=each.part.description,
            length=show_length(each.item.length),
            lot=each.item.lot,
        )
        for each in found
    ]
    return _counted(len(wanted), remnant_labels(wanted, sheet), "remnant labels")


def _tags(names: Sequence[str], sheet: LabelSheet | None) -> MadeLabels:
    from inventory.documents.tags import hold_tags, scrap_tags
    from inventory.jobs.labelling import numbered_items

    bench = context.open_bench()
    held = numbered_items(bench, names, [PlaceKind.HOLD])
    if held:
        return _counted(len(held), hold_tags(map(_tag, held), sheet), "HOLD tags")
    scrapped = numbered_items(bench, names, [PlaceKind.SCRAP])
    return _counted(len(scrapped), scrap_tags(map(_tag, scrapped), sheet), "SCRAP tags")


def _tag(numbered: NumberedItem) -> Tag:
    from inventory.documents.tags import Tag

    return Tag(
        part=numbered.part.printed,
        own_id=numbered.own_id,
        hand=numbered.item.hand,
        lot=numbered.item.lot,
    )


def _page(kind: str, sheet: LabelSheet | None) -> MadeLabels:
    from inventory.cli.papers import page_head
    from inventory.documents.control_labels import control_labels, scanner_card_pdf
    from inventory.documents.label_printers import calibration_page
    from inventory.documents.label_sheet import LabelSheet

    if kind == "controls":
        printed = control_labels(sheet)
        return MadeLabels(printed.pdf, "the control sheet", printed.remarks)
    if kind == "test-card":
        return MadeLabels(scanner_card_pdf(page_head(context.open_bench())), "the test card")
    return MadeLabels(calibration_page(sheet or LabelSheet()), "the calibration page")
