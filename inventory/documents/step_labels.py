"""Labels for steps and crates: what a scan loop needs besides bins and parts."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.documents.bin_labels import IDENTIFIER
from inventory.documents.label_sheet import printed
from inventory.documents.own_stocks import Use
from inventory.documents.pick_list import STEP_IDENTIFIER
from labels import Label, Line, Role

if TYPE_CHECKING:
    from collections.abc import Iterable

    from inventory.documents.label_sheet import LabelSheet, PrintedLabels

_CRATE_DISTANCE = 1500.0
"""Millimetres: a crate on the floor is read standing."""


@frozen(kw_only=True)
class StepLabel:
    """One step of the plan."""

    own_id: str
    step: str
    title: str = ""
    section: str = ""


@frozen(kw_only=True)
class CrateLabel:
    """One crate as it came."""

    own_id: str
    crate: str
    """As marked, for instance `1 OF 3`."""
    packing_list: str = ""
    note: str = ""


def step_labels(steps: Iterable[StepLabel], sheet: LabelSheet | None = None) -> PrintedLabels:
    """Return a sheet of step labels, for a card at the bench or the margin of the plans."""
    return printed(map(_step, steps), sheet)


def crate_labels(crates: Iterable[CrateLabel], sheet: LabelSheet | None = None) -> PrintedLabels:
    """Return a sheet of crate labels, large enough to be read standing."""
    return printed(map(_crate, crates), sheet, Use.LARGE)


def _step(step: StepLabel) -> Label:
    """Return the label of a step."""
    return Label(
        content=STEP_IDENTIFIER + step.own_id,
        lines=(
            Line(step.step, Role.HEADLINE),
            Line(step.title),
            Line(f"section {step.section}" if step.section else "", Role.SMALL),
        ),
    )


def _crate(crate: CrateLabel) -> Label:
    """Return the label of a crate, which is a place like a bin."""
    packing_list = f"packing list {crate.packing_list}" if crate.packing_list else ""
    return Label(
        content=IDENTIFIER + crate.own_id,
        lines=(
            Line(crate.crate, Role.HEADLINE),
            Line(packing_list),
            Line(crate.note, Role.SMALL),
        ),
        distance=_CRATE_DISTANCE,
    )
