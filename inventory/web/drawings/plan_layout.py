"""Where each step of a plan stands in its drawing: a lane for each section, later to the right."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.planning.plan import steps_in_order

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from inventory.core.planning.plan import Step


@frozen
class Lane:
    """One section's band."""

    section: str
    top: int
    """Rows above it."""
    rows: int


@frozen
class PlanLayout:
    """Columns and rows of all steps, and which of them to join by a line."""

    columns: Mapping[str, int]
    rows: Mapping[str, int]
    lanes: tuple[Lane, ...]
    joins: tuple[tuple[str, str], ...]
    """Earlier step, later step; no join that others already show."""

    @property
    def width(self) -> int:
        """Number of columns."""
        return max(self.columns.values(), default=-1) + 1

    @property
    def height(self) -> int:
        """Number of rows."""
        return sum(lane.rows for lane in self.lanes)


def plan_layout(steps: Sequence[Step]) -> PlanLayout:
    """Return where the steps stand: each right of all that come before it, its section's lane.

    Raises `ValueError` for steps in a circle.
    """
    order = steps_in_order(steps)
    known = {step.code for step in order}
    columns: dict[str, int] = {}
    before: dict[str, frozenset[str]] = {}
    joins: list[tuple[str, str]] = []
    for step in order:
        after = [code for code in step.after if code in known]
        columns[step.code] = max((columns[code] + 1 for code in after), default=0)
        behind = frozenset().union(*(before[code] for code in after))
        joins += [(code, step.code) for code in dict.fromkeys(after) if code not in behind]
        before[step.code] = behind | set(after)
    lanes, rows = _rows(order, columns)
    return PlanLayout(columns, rows, lanes, tuple(joins))


def _rows(
    order: Sequence[Step], columns: Mapping[str, int]
) -> tuple[tuple[Lane, ...], dict[str, int]]:
    """Give each step the first free row of its column in its section's lane."""
    by_section: defaultdict[str, list[Step]] = defaultdict(list)
    for step in order:
        by_section[step.section].append(step)
    rows: dict[str, int] = {}
    lanes: list[Lane] = []
    top = 0
    for section, steps in by_section.items():
        filled: defaultdict[int, int] = defaultdict(int)
        for step in steps:
            rows[step.code] = top + filled[columns[step.code]]
            filled[columns[step.code]] += 1
        lanes.append(Lane(section, top, max(filled.values())))
        top += max(filled.values())
    return tuple(lanes), rows
