"""Every row of a sheet is read back as it was stored, on both databases."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pytest
from sqlalchemy import select

from inventory.core.lists.packing import PackingLine, PackingList, RowClass, SourceRow
from inventory.jobs.acts import acting
from inventory.jobs.lists.unpacking import source_rows
from inventory.store.ledger.many_rows import insert_rows
from inventory.store.receiving.packing_lists import save_list
from inventory.store.tables.packing import source_row
from tests.conftest import slip

if TYPE_CHECKING:
    from collections.abc import Sequence

    from inventory.jobs.acts import Bench

LINE = PackingLine(sheet="L", row=2, part="T2-1", printed="T2-1", ordered=1, shipped=1)


def row(number: int, *cells: str, why: str = "a part", sheet: str = "L") -> SourceRow:
    kind = RowClass.PART if why == "a part" else RowClass.BLANK
    return SourceRow(sheet, number, kind, why, cells)


def saved(bench: Bench, rows: Sequence[SourceRow], key: str = "list") -> int:
    of_it = PackingList(source="l.xlsx", sha256=key, rows=tuple(rows), lines=(LINE,))
    with acting(bench, "packing-list read", slip(key)) as act:
        return save_list(act.db, bench.kit.id, act.recorded.id, of_it)


def stored(bench: Bench) -> list[tuple[int, str]]:
    c = source_row.c
    with bench.store.reading() as db:
        asked = select(c.row, c.cells).where(c.kit == bench.kit.id).order_by(c.id)
        return [(first, cells) for first, cells in db.execute(asked)]


@pytest.mark.parametrize(
    "rows",
    [
        [],
        [row(1)],
        [row(1, "T2-1", "RIB")],
        [row(number, f"T2-{number}", "", 'RIB "é"\n2') for number in range(1, 352)],
        [row(1, "a"), row(2, "b"), row(4, "c"), row(5, "d", sheet="M"), row(6, "e", sheet="M")],
        [row(1, "a"), row(1, "b"), row(2, "c"), row(2, "d"), row(3, "e")],
        [row(1, why="blank"), row(2, why="blank"), row(3, "x"), row(4, why="blank")],
        [row(1, "", "a"), row(2), row(3, "b", why="blank"), row(4, "c", why="blank too")],
        [row(7, "[", "]"), row(8, "[[]]"), row(9, "\\", "\t")],
    ],
    ids=["none", "empty", "one", "many", "gaps", "side by side", "blank", "mixed", "signs"],
)
def test_rows_are_read_back_as_they_were(bench: Bench, rows: list[SourceRow]) -> None:
    other = saved(bench, [row(1, "another list")], "another")
    number = saved(bench, rows)
    assert source_rows(bench, number) == rows
    assert source_rows(bench, other) == [row(1, "another list")]


def test_rows_that_follow_each_other_are_stored_together(bench: Bench) -> None:
    saved(bench, [row(number, str(number)) for number in range(1, 251)])
    runs = stored(bench)
    assert [first for first, _ in runs] == [1, 101, 201]
    assert json.loads(runs[2][1]) == [[str(number)] for number in range(201, 251)]


def test_a_lone_row_is_stored_as_it_always_was(bench: Bench) -> None:
    number = saved(bench, [row(3, "T2-1", "é")])
    assert stored(bench) == [(3, '["T2-1", "é"]')]
    names = ("kit", "id", "packing_list", "sheet", "row", "row_class", "why", "cells")
    with bench.store.writing(bench.kit.id) as db:
        older = [(bench.kit.id, n, number, "L", n, "part", "a part", f'["{n}"]') for n in (4, 5)]
        insert_rows(db, source_row, names, older)
    assert source_rows(bench, number) == [row(3, "T2-1", "é"), row(4, "4"), row(5, "5")]
