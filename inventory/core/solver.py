"""Linear and whole-number programs, solved by HiGHS; what comes out is checked by the callers."""

from __future__ import annotations

from dataclasses import field
from importlib.util import find_spec
from itertools import accumulate
from math import inf
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from highspy import Highs


_MANY = 1000
"""Columns of a large program."""


@frozen(kw_only=True)
class Column:
    """One unknown: its cost, its bounds, and its factor in each row where it has one."""

    cost: float = 0
    low: float = 0
    high: float = inf
    whole: bool = False
    factors: Mapping[int, float] = field(default_factory=dict)


@frozen
class Between:
    """A row: its sum lies between these."""

    low: float = -inf
    high: float = inf


@frozen
class Solved:
    """The best values found, and what no values can go below; `values` is empty if none were."""

    values: tuple[float, ...]
    cost: float
    bound: float
    proved: bool
    seconds: float
    """That the search took."""


def solver_there() -> bool:
    """Say whether HiGHS is installed; without it callers give their first answer, not proved."""
    return find_spec("highspy") is not None


def least(
    columns: Sequence[Column],
    rows: Sequence[Between],
    seconds: float,
    enough: float = -inf,
) -> Solved:
    """Return the values of least cost, or the first found that cost no more than `enough`.

    Searched for at most so many seconds; what was found by then comes back, not proved.
    """
    highs = _model(columns, rows)
    highs.setOptionValue("time_limit", float(seconds))
    highs.setOptionValue("objective_target", float(enough))
    highs.setOptionValue("mip_rel_gap", 0.0)
    highs.setOptionValue("mip_abs_gap", 0.0)
    whole = any(column.whole for column in columns)
    if not whole and len(columns) > _MANY:
        # Half the time of the simplex method on programs of some thousand steps.
        highs.setOptionValue("solver", "ipm")
    highs.run()
    info = highs.getInfo()
    found = highs.solutionStatusToString(info.primal_solution_status) == "Feasible"
    values = tuple(highs.getSolution().col_value) if found else ()
    proved = highs.modelStatusToString(highs.getModelStatus()) == "Optimal"
    cost = info.objective_function_value if found else inf
    return Solved(values, cost, info.mip_dual_bound if whole else cost, proved, highs.getRunTime())


class GrowingProgram:
    """A linear program that gets more columns while it is solved again and again."""

    def __init__(self, rows: Sequence[Between]) -> None:
        self._highs = _model((), rows)

    def add(self, column: Column) -> None:
        """Add a column."""
        rows, factors = list(column.factors), list(map(float, column.factors.values()))
        self._highs.addCol(column.cost, column.low, column.high, len(rows), rows, factors)

    def solve(self) -> tuple[tuple[float, ...], tuple[float, ...]]:
        """Return the values of least cost, and what each row's limit costs (dual values)."""
        self._highs.run()
        solution = self._highs.getSolution()
        return tuple(solution.col_value), tuple(solution.row_dual)


def _model(columns: Sequence[Column], rows: Sequence[Between]) -> Highs:
    from highspy import Highs, HighsVarType  # noqa: PLC0415  costs a tenth of a second

    # Highs() itself switches callbacks on, which writes a banner into the answer on stdout.
    highs = Highs.__new__(Highs)
    super(Highs, highs).__init__()
    highs.setOptionValue("output_flag", False)  # noqa: FBT003  the library's own call
    # A second thread took 40 % more processor time and saved none on small programs.
    highs.setOptionValue("threads", 1)
    count = len(rows)
    highs.addRows(
        count, [row.low for row in rows], [row.high for row in rows], 0, [0] * count, [], []
    )
    starts = [0, *accumulate(len(column.factors) for column in columns)]
    highs.addCols(
        len(columns),
        [float(column.cost) for column in columns],
        [float(column.low) for column in columns],
        [float(column.high) for column in columns],
        starts[-1],
        starts[:-1],
        [row for column in columns for row in column.factors],
        [float(factor) for column in columns for factor in column.factors.values()],
    )
    for place, column in enumerate(columns):
        if column.whole:
            highs.changeColIntegrality(place, HighsVarType.kInteger)
    return highs
