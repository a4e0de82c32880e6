from __future__ import annotations

from itertools import islice

import pytest

from labels import LabelError, Run, load_stock, next_free
from labels.sheet import spots

STOCK = load_stock("a4-2x7-99.1x38.1")
PLACES = {(round(rect.x, 2), round(rect.y, 2)): n for n, rect in enumerate(STOCK.rects(), 1)}


def numbers(run: Run, count: int) -> list[tuple[int, int]]:
    """Return page and number of the first places."""
    return [
        (page, PLACES[round(rect.x, 2), round(rect.y, 2)])
        for page, rect in islice(spots(STOCK, run), count)
    ]


def test_a_part_used_sheet_begins_at_its_first_free_label() -> None:
    assert numbers(Run(start=13), 4) == [(0, 13), (0, 14), (1, 1), (1, 2)]


def test_full_sheets_follow_each_other() -> None:
    assert numbers(Run(), 30)[-3:] == [(1, 14), (2, 1), (2, 2)]


def test_damaged_labels_of_the_first_sheet_are_skipped() -> None:
    run = Run(start=12, skip=frozenset({13, 1}))
    assert numbers(run, 4) == [(0, 12), (0, 14), (1, 1), (1, 2)]


def test_labels_may_run_down_the_columns() -> None:
    assert numbers(Run(by_column=True), 3) == [(0, 1), (0, 3), (0, 5)]


@pytest.mark.parametrize("start", [0, -1, 15])
def test_start_off_the_sheet_is_refused(start: int) -> None:
    with pytest.raises(LabelError) as refusal:
        next(spots(STOCK, Run(start=start)))
    assert refusal.value.what == (
        f"label {start} isn't on a sheet of a4-2x7-99.1x38.1, which has 14"
    )
    assert refusal.value.remedy == "Start at 1 to 14."


def test_no_copies_are_refused() -> None:
    with pytest.raises(LabelError) as refusal:
        Run(copies=0)
    assert refusal.value.what == "0 copies can't be printed"
    assert refusal.value.remedy == "Ask for one or more."


@pytest.mark.parametrize(
    ("run", "labels", "following"),
    [
        (Run(), 3, 4),
        (Run(), 14, 1),
        (Run(), 15, 2),
        (Run(start=13), 2, 1),
        (Run(start=13), 3, 2),
        (Run(start=5, copies=2), 3, 11),
        (Run(start=5, skip=frozenset({6, 8})), 2, 9),
        (Run(start=14, skip=frozenset({14})), 1, 2),
    ],
)
def test_next_run_starts_where_this_one_ended(run: Run, labels: int, following: int) -> None:
    assert next_free(STOCK, run, labels) == following
