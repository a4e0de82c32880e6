"""Packing lists: saved whole with every row of the sheet, and read back as lines."""

from __future__ import annotations

import json
from itertools import pairwise
from typing import TYPE_CHECKING

from sqlalchemy import func, insert, select

from inventory.core.frozen import frozen
from inventory.core.items import Hand, Measure
from inventory.core.lists.packing import CountRule, PackingLine, RowClass, SourceRow
from inventory.store.ledger.ids import next_id
from inventory.store.ledger.many_rows import insert_rows
from inventory.store.ledger.names import PartName, part_ids
from inventory.store.ledger.slips import undone_slips
from inventory.store.opening.one_moment import read_once
from inventory.store.tables.kits import part as part_table
from inventory.store.tables.packing import line as line_table
from inventory.store.tables.packing import packing_list as list_table
from inventory.store.tables.packing import source_row as row_table

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sqlalchemy import Connection, RowMapping

    from inventory.core.lists.packing import PackingList
    from inventory.core.receiving.arrivals import ListedLine


@frozen
class SavedList:
    """A packing list that was taken in."""

    id: int
    slip: int
    source: str
    sha256: str
    supplier: str
    order_number: str
    revision: str
    replaces: int | None


def save_list(
    db: Connection, kit: int, slip: int, packing_list: PackingList, replaces: int | None = None
) -> int:
    """Save a list, all its rows and lines; return its number."""
    number = next_id(db, list_table, kit)
    db.execute(
        insert(list_table).values(
            kit=kit,
            id=number,
            slip=slip,
            source=packing_list.source,
            sha256=packing_list.sha256,
            supplier=packing_list.supplier,
            order_number=packing_list.order,
            revision=packing_list.revision,
            replaces=replaces,
        )
    )
    _save_rows(db, kit, number, packing_list)
    _save_lines(db, kit, number, packing_list)
    return number


_ROW = ("kit", "id", "packing_list", "sheet", "row", "row_class", "why", "cells")
_LINE = (
    *("kit", "id", "packing_list", "sheet", "row", "part", "printed", "description", "hand"),
    *("ordered", "shipped", "back_ordered", "measure", "unit", "length", "count_rule", "crate"),
    *("bag", "sub_kit", "revision", "remark"),
)


_LONGEST_RUN = 100
"""Rows of a sheet in one row of the table: so few are lost with a page of a damaged file."""


def _save_rows(db: Connection, kit: int, number: int, packing_list: PackingList) -> None:
    first = next_id(db, row_table, kit)
    rows = (
        (kit, first + place, number, row.sheet, row.row, str(row.row_class), row.why, _cells(run))
        for place, run in enumerate(_runs(packing_list.rows))
        for row in run[:1]
    )
    insert_rows(db, row_table, _ROW, rows)


def _runs(rows: Sequence[SourceRow]) -> Iterator[Sequence[SourceRow]]:
    """Yield rows that follow each other and are of one class for one reason, together."""
    begun = 0
    for place, (above, row) in enumerate(pairwise(rows), 1):
        if (
            row.row != above.row + 1
            or row.why != above.why
            or row.row_class is not above.row_class
            or row.sheet != above.sheet
            or place - begun == _LONGEST_RUN
        ):
            yield rows[begun:place]
            begun = place
    yield rows[begun:]


def _cells(run: Sequence[SourceRow]) -> str:
    """Return the cells of a lone row, or of each row of a run."""
    return json.dumps(run[0].cells if len(run) == 1 else [r.cells for r in run], ensure_ascii=False)


_WORDS = {word: word.value for kind in (Hand, Measure, CountRule) for word in kind}


def _line_cells(line: PackingLine, part: int) -> tuple[str | int, ...]:
    return (
        line.sheet, line.row, part, line.printed, line.description, _WORDS[line.hand],
        line.ordered, line.shipped, line.back_ordered, _WORDS[line.measure], line.unit,
        line.length, _WORDS[line.count_rule], line.crate, line.bag, line.sub_kit,
        line.revision, line.remark,
    )  # fmt: skip


def _save_lines(db: Connection, kit: int, number: int, packing_list: PackingList) -> None:
    named = {line.part: line for line in packing_list.lines}
    names = (PartName(p.part, p.printed, p.description, p.measure) for p in named.values())
    parts = part_ids(db, kit, names)
    first = next_id(db, line_table, kit)
    rows = (
        (kit, first + place, number, *_line_cells(line, parts[line.part]))
        for place, line in enumerate(packing_list.lines)
    )
    insert_rows(db, line_table, _LINE, rows)


def saved_lists(db: Connection, kit: int) -> list[SavedList]:
    """Return the lists that count, oldest first: not undone."""
    c = list_table.c
    undone = undone_slips(db, kit)
    rows = db.execute(
        select(
            c.id,
            c.slip,
            c.source,
            c.sha256,
            c.supplier,
            c.order_number,
            c.revision,
            c.replaces,
        )
        .where(c.kit == kit)
        .order_by(c.id)
    )
    return [SavedList(*row) for row in rows if row.slip not in undone]


@read_once
def current_lines(db: Connection, kit: int) -> list[PackingLine]:
    """Return the lines of all lists that count and that no later list replaces."""
    return [line for _, _, line in _numbered(db, kit, _that_count(db, kit))]


def lines_of(db: Connection, kit: int, packing_list: int) -> list[PackingLine]:
    """Return the lines of one list in the order of its sheet."""
    return [line for _, _, line in _numbered(db, kit, [packing_list])]


@read_once
def listed_lines(db: Connection, kit: int) -> list[ListedLine]:
    """Return the lines of all lists that count and that no later list replaces, numbered."""
    return _listed(db, kit, _that_count(db, kit))


def _that_count(db: Connection, kit: int) -> list[int]:
    lists = saved_lists(db, kit)
    replaced = {saved.replaces for saved in lists}
    return [saved.id for saved in lists if saved.id not in replaced]


def suppliers_of_parts(db: Connection, kit: int) -> dict[str, str]:
    """Return who supplied each part by the lists that count; of several the newest list's."""
    c, p, a = line_table.c, part_table.c, list_table.c
    rows = db.execute(
        select(p.key, a.supplier)
        .select_from(line_table)
        .join(part_table, (p.kit == c.kit) & (p.id == c.part))
        .join(list_table, (a.kit == c.kit) & (a.id == c.packing_list))
        .where(c.kit == kit, c.packing_list.in_(_that_count(db, kit)), a.supplier != "")
        .group_by(p.key, a.supplier)
        .order_by(func.max(c.packing_list))
    )
    return dict(rows.all())


def listed_crates(db: Connection, kit: int) -> list[str]:
    """Return the crates that the lists name, in the order of their sheets."""
    c = line_table.c
    rows = db.execute(
        select(c.crate)
        .where(c.kit == kit, c.packing_list.in_(_that_count(db, kit)), c.crate != "")
        .group_by(c.crate)
        .order_by(func.min(c.id))
    )
    return list(rows.scalars())


def listed_parts(db: Connection, kit: int) -> set[str]:
    """Return the keys of the parts that the lists that count name."""
    c, p = line_table.c, part_table.c
    rows = db.execute(
        select(p.key)
        .join(line_table, (p.kit == c.kit) & (p.id == c.part))
        .where(c.kit == kit, c.packing_list.in_(_that_count(db, kit)))
        .distinct()
    )
    return set(rows.scalars())


@read_once
def numbered_lines_of(db: Connection, kit: int, packing_list: int) -> list[ListedLine]:
    """Return the lines of one list with their own numbers, in the order of its sheet."""
    return _listed(db, kit, [packing_list])


def _listed(db: Connection, kit: int, lists: Sequence[int]) -> list[ListedLine]:
    from inventory.core.receiving.arrivals import ListedLine  # noqa: PLC0415 - few ask for it

    return [ListedLine(*numbered) for numbered in _numbered(db, kit, lists)]


def _numbered(db: Connection, kit: int, lists: Sequence[int]) -> list[tuple[int, int, PackingLine]]:
    """Return the lines of some lists with their own number and their list's, list by list."""
    c, p = line_table.c, part_table.c
    rows = db.execute(
        select(line_table, p.key.label("part_key"))
        .join(part_table, (p.kit == c.kit) & (p.id == c.part))
        .where(c.kit == kit, c.packing_list.in_(lists))
        .order_by(c.id)
    ).mappings()
    return [(row["id"], row["packing_list"], _line(row)) for row in rows]


def _line(row: RowMapping) -> PackingLine:
    return PackingLine(
        sheet=row["sheet"],
        row=row["row"],
        part=row["part_key"],
        printed=row["printed"],
        description=row["description"],
        hand=Hand(row["hand"]),
        ordered=row["ordered"],
        shipped=row["shipped"],
        back_ordered=row["back_ordered"],
        measure=Measure(row["measure"]),
        unit=row["unit"],
        length=row["length"],
        count_rule=CountRule(row["count_rule"]),
        crate=row["crate"],
        bag=row["bag"],
        sub_kit=row["sub_kit"],
        revision=row["revision"],
        remark=row["remark"],
    )


def rows_of(db: Connection, kit: int, packing_list: int) -> list[SourceRow]:
    """Return every row of the sheet that a list was read from."""
    c = row_table.c
    rows = db.execute(
        select(c.sheet, c.row, c.row_class, c.why, c.cells)
        .where(c.kit == kit, c.packing_list == packing_list)
        .order_by(c.id)
    )
    return [
        SourceRow(sheet, row, RowClass(row_class), why, tuple(texts))
        for sheet, first, row_class, why, cells in rows
        for row, texts in enumerate(_run_of(cells), first)
    ]


def _run_of(cells: str) -> list[list[str]]:
    """Return the cells of each row that a row of the table stands for."""
    found = json.loads(cells)
    return found if found and isinstance(found[0], list) else [found]
