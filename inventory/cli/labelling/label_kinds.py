"""Each kind of label, from what the jobs answer to what the papers print."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar

from inventory.cli import context
from inventory.core.errors import InventoryError
from inventory.core.frozen import frozen
from inventory.core.places import PlaceKind

if TYPE_CHECKING:
    from collections.abc import Sequence

    from inventory.documents.label_sheet import LabelSheet, PrintedLabels
    from inventory.documents.part_labels import PartLabel
    from inventory.documents.tags import Tag
    from inventory.jobs.bench.labelling import NumberedItem
    from inventory.jobs.bench.tagging import TaggedItem

Found = TypeVar("Found")
_NAMED_STEPS = 3
"""Steps that stand on a part's label by their codes; hardware goes into dozens."""


@frozen
class MadeLabels:
    """A PDF of labels, and what is to be said about it."""

    pdf: bytes
    told: str
    remarks: tuple[str, ...] = ()
    next_free: int = 0


def made(kind: str, names: Sequence[str], sheet: LabelSheet, *, tiny: bool = False) -> MadeLabels:
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
    from inventory.core.counted import counted

    return MadeLabels(printed.pdf, counted(number, what), printed.remarks, printed.next_free)


def _lie_there(found: Sequence[Found], what: str, remedy: str) -> Sequence[Found]:
    """Return what was found; nothing at all is refused with what to do first."""
    if not found:
        raise InventoryError(f"there is nothing yet to print {what} for", remedy=remedy)
    return found


def _bins(names: Sequence[str], sheet: LabelSheet, *, tiny: bool) -> MadeLabels:
    from inventory.documents.bin_labels import BinLabel, bin_labels
    from inventory.jobs.bench.labelling import numbered_bins

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
    return _counted(len(wanted), bin_labels(wanted, sheet, tiny=tiny), "bin label")


def _part_label(numbered: NumberedItem) -> PartLabel:
    from inventory.documents.part_labels import PartLabel

    return PartLabel(
        part=numbered.part.printed,
        own_id=numbered.own_id,
        description=numbered.part.description,
        hand=numbered.item.hand,
        lot=numbered.item.lot,
        steps=_for_steps(numbered.steps),
    )


def _for_steps(codes: Sequence[str]) -> str:
    """Return the steps that use a part by their codes, or how many they are."""
    if len(codes) > _NAMED_STEPS:
        return f"{len(codes)} steps"
    return f"step {', '.join(codes)}" if codes else ""


def _parts(names: Sequence[str], sheet: LabelSheet) -> MadeLabels:
    from inventory.documents.part_labels import part_labels
    from inventory.jobs.bench.labelling import numbered_items

    kinds = [PlaceKind.BIN, PlaceKind.CRATE]
    found = _lie_there(
        numbered_items(context.open_bench(), names, kinds),
        "part labels",
        "Count a crate, or put pieces into a bin.",
    )
    return _counted(len(found), part_labels(map(_part_label, found), sheet), "part label")


def _bags(names: Sequence[str], sheet: LabelSheet) -> MadeLabels:
    from inventory.documents.part_labels import part_labels
    from inventory.jobs.bench.labelling import numbered_items

    kinds = [PlaceKind.BIN, PlaceKind.CRATE]
    found = _lie_there(
        numbered_items(context.open_bench(), names, kinds, bags=True),
        "bag labels",
        "Count a crate, or put pieces into a bin.",
    )
    return _counted(len(found), part_labels(map(_part_label, found), sheet), "bag label")


def _steps(names: Sequence[str], sheet: LabelSheet) -> MadeLabels:
    from inventory.documents.step_labels import StepLabel, step_labels
    from inventory.jobs.bench.labelling import numbered_steps

    wanted = [
        StepLabel(own_id=own_id, step=step.code, title=step.title, section=step.section)
        for step, own_id in numbered_steps(context.open_bench(), names)
    ]
    return _counted(len(wanted), step_labels(wanted, sheet), "step label")


def _crates(names: Sequence[str], sheet: LabelSheet) -> MadeLabels:
    from inventory.documents.step_labels import CrateLabel, crate_labels
    from inventory.jobs.bench.labelling import numbered_crates

    wanted = [
        CrateLabel(own_id=own_id, crate=crate)
        for crate, own_id in numbered_crates(context.open_bench(), names)
    ]
    return _counted(len(wanted), crate_labels(wanted, sheet), "crate label")


def _remnants(names: Sequence[str], sheet: LabelSheet) -> MadeLabels:
    from inventory.core.measures.lengths import show_length
    from inventory.documents.part_labels import RemnantLabel, remnant_labels
    from inventory.jobs.bench.labelling import numbered_items

    there = numbered_items(context.open_bench(), names, [PlaceKind.BIN])
    found = _lie_there(
        [each for each in there if each.item.length],
        "remnant labels",
        "A remnant lies in a bin once it has a length: kitwright cut record, or bin put --length.",
    )
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
    return _counted(len(wanted), remnant_labels(wanted, sheet), "remnant label")


def _tags(names: Sequence[str], sheet: LabelSheet) -> MadeLabels:
    from inventory.documents.tags import tags
    from inventory.jobs.bench.tagging import tagged_items

    found = _lie_there(
        tagged_items(context.open_bench(), names),
        "tags",
        "Tags are for pieces on hold or scrapped.",
    )
    return _counted(len(found), tags(map(_tag, found), sheet), "tag")


def _tag(tagged: TaggedItem) -> Tag:
    from inventory.documents.tags import Tag

    item, part = tagged.numbered.item, tagged.numbered.part
    return Tag(
        part=part.printed,
        own_id=tagged.numbered.own_id,
        description=part.description,
        hand=item.hand,
        lot=item.lot,
        why=tagged.why,
        on=" ".join(filter(None, (f"{tagged.on or ''}", tagged.person))),
        scrapped=tagged.kind is PlaceKind.SCRAP,
    )


def _page(kind: str, sheet: LabelSheet) -> MadeLabels:
    from inventory.cli.papers import page_head
    from inventory.documents.control_labels import control_labels, scanner_card_pdf
    from inventory.documents.label_printers import calibration_page, keep_words

    if kind == "controls":
        printed = control_labels(sheet)
        return MadeLabels(printed.pdf, "the control sheet", printed.remarks)
    if kind == "test-card":
        return MadeLabels(scanner_card_pdf(page_head(context.open_bench())), "the test card")
    return MadeLabels(
        calibration_page(sheet),
        "the calibration page",
        (f"print at actual size on plain paper, measure, then: {keep_words(sheet)}",),
    )
