"""Make `tarn_rudder/`: the rudder kit of the invented floatplane Tarn T2, as its supplier sends it.

Run `python sample_kits/make_tarn_rudder.py [FOLDER]`; openpyxl and xlwt are needed.
"""

from __future__ import annotations

import sys
from pathlib import Path
from typing import NamedTuple

import tarn_rudder_tables as tables
from spreadsheets import Cell, Sheet, write_csv, write_ods, write_table, write_xls, write_xlsx

BAG = tables.HEAD.index("BAG")
ORD = tables.HEAD.index("ORD")


class Line(NamedTuple):
    """One part of one hand on the list."""

    row: int
    part: str
    hand: str
    ordered: str
    shipped: str
    due: str
    unit: str
    length: str
    crate: str
    bag: str
    sub_kit: str
    revision: str


class Counted(NamedTuple):
    """What the class found of one line."""

    crate: str
    bag: str
    part: str
    hand: str
    pieces: int
    condition: str
    revision: str
    by: str
    note: str


def cut(text: str) -> list[list[str]]:
    """Return the rows of a text table, cells cut at `|`."""
    return [[cell.strip() for cell in line.split("|")] for line in text.strip().splitlines()]


def number(text: str) -> Cell:
    """Return a whole number as a number, an empty cell as nothing, else the text."""
    return int(text) if text.isdigit() else text or None


def packing_list() -> tuple[Sheet, list[tuple[int, str]], list[Line]]:
    """Return the sheet, the class of every row, and the lines it holds, one hand each."""
    sheet = Sheet("PACKING LIST", widths=(6, 18, 36, 8, 6, 7, 7, 6, 9, 9, 6, 5, 22))
    classes = [(sheet.add(text, bold=True), "head") for text in tables.TITLE]
    classes += [(sheet.add(), "blank"), (sheet.add(*tables.HEAD, bold=True), "head")]
    lines: list[Line] = []
    item = 0
    for (sub_kit, crate), text in tables.SUB_KITS.items():
        if sub_kit.startswith("14"):
            classes += [(sheet.add(None, "PAGE 1 OF 2"), "note"), (sheet.add(), "blank")]
            classes.append((sheet.add(*tables.HEAD, bold=True), "head"))
        top = sheet.add(f"SUB-KIT {sub_kit}", bold=True)
        sheet.merges.append((top, 1, top, len(tables.HEAD)))
        classes.append((top, "heading"))
        for part, words, hand, unit, *amounts, length, bag, revision, remark in cut(text):
            item += 1
            texts = (part, words, hand, unit, *amounts, length, crate, bag, revision, remark)
            row = sheet.add(item, part, words, *map(number, texts[2:]))
            classes.append((row, "part"))
            place = (unit, length, crate, bag, sub_kit, revision)
            lines += split(Line._make((row, part, hand, *amounts, *place)))
            if part in tables.NOTES:
                classes.append((sheet.add(None, None, tables.NOTES[part]), "note"))
    merge_bags(sheet)
    sums = [sum(one for one in column(sheet, ORD + k) if isinstance(one, int)) for k in range(3)]
    classes.append((sheet.add(None, "TOTAL", f"{item} LINES", None, None, *sums), "total"))
    classes.append((sheet.add(None, "PAGE 2 OF 2"), "note"))
    return sheet, classes, lines


def column(sheet: Sheet, place: int) -> list[Cell]:
    """Return a column's cells, nothing where a row is too short."""
    return [row[place] if len(row) > place else None for row in sheet.rows]


def split(line: Line) -> list[Line]:
    """Return a row's lines: two where the row holds a handed pair, half the pieces each."""
    if line.hand != "LH/RH":
        return [line]
    half = [str(int(amount) // 2) for amount in (line.ordered, line.shipped, line.due)]
    pair = line._replace(ordered=half[0], shipped=half[1], due=half[2])
    return [pair._replace(hand=hand) for hand in ("LH", "RH")]


def merge_bags(sheet: Sheet) -> None:
    """Merge each run of the same bag into one cell, as the office does."""
    bags = [None if bag == "BAG" else bag for bag in [*column(sheet, BAG), None]]
    top = 0
    for place, bag in enumerate(bags):
        if bag == bags[top]:
            continue
        if bags[top] and place - top > 1:
            sheet.merges.append((top + 1, BAG + 1, place, BAG + 1))
            for row in range(top + 1, place):
                sheet.rows[row][BAG] = None
        top = place


def counted(lines: list[Line]) -> list[Counted]:
    """Return what the class counted, crate by crate, with the planted findings."""
    rows = [Counted(*tables.NOT_LISTED)]
    for line in lines:
        if line.shipped in {"0", "REF"}:
            continue
        plain = [(line.hand, 1 if line.shipped == "AR" else int(line.shipped), "good", "")]
        for hand, pieces, condition, note in tables.FOUND.get((line.part, line.hand), plain):
            by = f"table {line.crate[0]}"
            found = (line.part, hand, pieces, condition, line.revision, by, note)
            rows.append(Counted(line.crate, line.bag, *found))
    return sorted(rows, key=lambda row: (row.crate, row.bag))


def put_away(rows: list[Counted], lines: list[Line]) -> list[tuple[Cell, ...]]:
    """Return where the good pieces went; damaged and unlisted ones wait on hold."""
    sub_kit = {line.part: line.sub_kit[:2] for line in lines}
    places: list[tuple[Cell, ...]] = []
    for row in rows:
        if row.condition == "good" and row.part in sub_kit:
            place = tables.BINS.get(sub_kit[row.part]) or tables.BAG_BINS[row.bag]
            side = f"-{row.hand[0]}" if row.hand in {"LH", "RH"} else ""
            places.append((*row[:5], place + side))
    return places


def plan() -> list[Sheet]:
    """Return the plan's two sheets."""
    steps = Sheet("Steps", widths=(8, 44, 24, 14, 24, 6))
    needs = Sheet("Needs", widths=(8, 18, 6, 9, 6, 12, 10, 14, 12, 7, 14))
    steps.add(*tables.STEP_HEAD, bold=True)
    for *words, days in cut(tables.STEPS):
        steps.add(*(word or None for word in words), int(days))
    needs.add(*tables.NEED_HEAD, bold=True)
    for step, part, hand, pieces, kind, length, page, find, spare, remark in cut(tables.NEEDS):
        cells = (hand or None, number(pieces), "EA", kind, length or None, page, int(find))
        needs.add(step, part, *cells, int(spare), remark or None)
    return [steps, needs]


def main(folder: Path) -> None:
    """Write all files of the kit into the folder."""
    (folder / "expected").mkdir(parents=True, exist_ok=True)
    sheet, classes, lines = packing_list()
    write_xlsx([sheet], folder / "packing_list.xlsx")
    write_xls([sheet], folder / "packing_list.xls")
    write_ods([sheet], folder / "packing_list.ods")
    write_csv(sheet, folder / "packing_list.csv")
    write_xlsx(plan(), folder / "plan.xlsx")
    rows = counted(lines)
    write_table(folder / "counts.csv", tables.COUNT_HEAD, rows)
    write_table(folder / "put_away.csv", tables.PUT_AWAY_HEAD, put_away(rows, lines))
    write_table(folder / "expected" / "rows.csv", ("row", "class"), classes)
    write_table(folder / "expected" / "lines.csv", tables.LINE_HEAD, lines)


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).parent / "tarn_rudder")
