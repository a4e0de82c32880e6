"""A packing list on one screen: what the file is, what is asked, what was understood."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from inventory.cli.paragraphs import hanging
from inventory.cli.show import note, say, table
from inventory.cli.table import Column
from inventory.core.counted import counted
from inventory.core.lists.packing import RowClass
from inventory.core.plain import plain

if TYPE_CHECKING:
    from inventory.core.lists.packing import PackingLine, PackingList, Question

_UNREAD = frozenset({"", "other"})
MOST_ASKED = 6
"""Questions shown at once; the rest is counted."""


def preview(packing_list: PackingList) -> None:
    """Show a list: problems and questions first, then what was understood."""
    for problem in packing_list.problems:
        _say_hanging(f"PROBLEM  {problem}", 9)
    for question in packing_list.questions[:MOST_ASKED]:
        asked(question)
    if len(packing_list.questions) > MOST_ASKED:
        say(f"... and {len(packing_list.questions) - MOST_ASKED} more questions")
    _facts(packing_list)
    _classes(packing_list)
    _sub_kits(packing_list.lines)
    for remark in packing_list.remarks:
        _say_hanging(f"note: {remark}", 6)
    _not_read(packing_list)


def _not_read(packing_list: PackingList) -> None:
    """Name the columns that mean nothing to the reader, and how to give them a meaning."""
    unread = [one for one in packing_list.columns if one.heading and one.meaning in _UNREAD]
    if not unread or packing_list.layout:
        return
    named = ", ".join(f"{one.column} {one.heading}" for one in unread)
    _say_hanging(f"columns not read: {named}", 2)
    name = packing_list.supplier or "SUPPLIER"
    note(f'to have one read: kitwright packing-list layout "{plain(name)}" > layout.toml')


def asked(question: Question) -> None:
    """Show a question with its readings and what each would do."""
    where = f"{question.sheet} row {question.row}" if question.row else "the whole list"
    more = f" and {len(question.rows) - 1} more rows" if len(question.rows) > 1 else ""
    _say_hanging(f'QUESTION "{question.id}": {where}{more}: {question.what}', 4)
    for reading in question.readings:
        _say_hanging(f"    {reading.answer}: {reading.effect}", 6)
    if question.open_answer:
        say("    or type what is right")


def _say_hanging(text: str, indent: int) -> None:
    for line in hanging(text, indent):
        say(line)


def _facts(packing_list: PackingList) -> None:
    facts = [
        ("from", packing_list.supplier),
        ("order", packing_list.order),
        ("revision", packing_list.revision),
        ("read by the layout of", packing_list.layout),
    ]
    told = ", ".join(f"{name} {value}" for name, value in facts if value)
    _say_hanging(f"{packing_list.source} ({packing_list.form}){': ' + told if told else ''}", 2)


def _classes(packing_list: PackingList) -> None:
    counts = Counter(row.row_class for row in packing_list.rows)
    told = ", ".join(f"{counts[kind]} {kind}" for kind in RowClass if counts[kind])
    held = f", {len(packing_list.held)} held by questions" if packing_list.held else ""
    rows = counted(len(packing_list.rows), "row")
    say(f"{rows}: {told} -> {counted(len(packing_list.lines), 'line')}{held}")


def _sub_kits(lines: tuple[PackingLine, ...]) -> None:
    kits: dict[str, list[PackingLine]] = {}
    for line in lines:
        kits.setdefault(line.sub_kit, []).append(line)
    rows = [
        (
            kit or "(no sub-kit)",
            len(of_kit),
            sum(line.shipped for line in of_kit if line.measure == "pieces"),
            sum(line.back_ordered for line in of_kit if line.measure == "pieces"),
            ", ".join(dict.fromkeys(line.crate for line in of_kit if line.crate)),
        )
        for kit, of_kit in kits.items()
    ]
    columns = [
        Column("sub-kit", words=True), Column("lines", number=True),
        Column("pieces", number=True), Column("b/o", number=True), Column("crates", words=True),
    ]  # fmt: skip
    if rows:
        say()
        table(columns, rows)
