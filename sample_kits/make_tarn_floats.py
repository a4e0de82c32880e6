"""Make `tarn_floats/`: the float kit of the invented floatplane Tarn T2, at full size.

Run `python sample_kits/make_tarn_floats.py [FOLDER]`; openpyxl and xlwt are needed.
"""

from __future__ import annotations

import sys
from pathlib import Path
from random import Random
from typing import TYPE_CHECKING

import tarn_rudder_tables as tables
from spreadsheets import Cell, Sheet, write_csv, write_ods, write_table, write_xls, write_xlsx
from tarn_floats_list import lines_of, revised
from tarn_floats_plan import counted, halves, plan, put_away
from tarn_floats_sheets import Placed, Workbook, workbook

if TYPE_CHECKING:
    from collections.abc import Iterable

SEED = 2051


def truth(placed: Iterable[Placed]) -> list[tuple[Cell, ...]]:
    """Return the lines of a workbook, one hand each."""
    return [
        (
            *(sheet, row, line.part, half.hand, half.ordered, half.shipped, half.due),
            *(line.unit, line.length, line.crate, line.bag, line.sub_kit, line.revision),
        )
        for sheet, row, _, line in placed
        for half in halves(line)
    ]


def changes(old: Workbook, new: Workbook) -> list[tuple[Cell, ...]]:
    """Return what a later issue changes, line by line."""
    before = {place.line.key: place for place in old.placed}
    after = {place.line.key: place for place in new.placed}
    rows: list[tuple[Cell, ...]] = []
    for key in [*before, *(key for key in after if key not in before)]:
        was, now = before.get(key), after.get(key)
        if was is None or now is None:
            rows.append(("added" if now else "removed", *key, None, None, None))
            continue
        for name in ("ordered", "shipped", "due", "revision"):
            values = getattr(was.line, name), getattr(now.line, name)
            if values[0] != values[1]:
                rows.append(("changed", *key, name, *values))
        if was.number != now.number:
            rows.append(("renumbered", *key, "line", was.number, now.number))
    return rows


def one_sheet(book: Workbook) -> Sheet:
    """Return all sheets below one another, as a text file has them."""
    whole = Sheet("ALL")
    for sheet in book.sheets[1:]:
        whole.rows += sheet.filled()
    return whole


def main(folder: Path) -> None:
    """Write all files of the kit into the folder."""
    expected = folder / "expected"
    expected.mkdir(parents=True, exist_ok=True)
    lines = lines_of(Random(SEED))
    later = revised(lines, Random(SEED + 1), changes=14)
    latest = revised(later, Random(SEED + 2), changes=6)
    books = [workbook(issue, name) for issue, name in ((lines, "A"), (later, "B"), (latest, "C"))]
    write_xlsx(books[0].sheets, folder / "packing_list.xlsx")
    write_xls(books[0].sheets, folder / "packing_list.xls")
    write_ods(books[0].sheets, folder / "packing_list.ods")
    write_csv(one_sheet(books[0]), folder / "packing_list.csv", delimiter=";", encoding="cp1252")
    write_xlsx(books[1].sheets, folder / "packing_list_b.xlsx")
    write_xlsx(books[2].sheets, folder / "packing_list_c.xlsx")
    write_xlsx(plan(lines, Random(SEED + 3)), folder / "plan.xlsx")
    rows = counted(lines, Random(SEED + 4))
    write_table(folder / "counts.csv", tables.COUNT_HEAD, rows)
    write_table(folder / "put_away.csv", tables.PUT_AWAY_HEAD, put_away(rows, lines))
    write_table(expected / "rows.csv", ("sheet", "row", "class"), books[0].classes)
    write_table(expected / "lines.csv", ("sheet", *tables.LINE_HEAD), truth(books[0].placed))
    head = ("change", "sub-kit", "bag", "part number", "side", "field", "was", "is")
    write_table(expected / "changes_b.csv", head, changes(books[0], books[1]))
    write_table(expected / "changes_c.csv", head, changes(books[1], books[2]))


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).parent / "tarn_floats")
