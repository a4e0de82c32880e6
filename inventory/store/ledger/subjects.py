"""What an act was about where no movement says it: a crate, a list, a plan, a step, a part."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, Any

from sqlalchemy import bindparam, select

from inventory.store.ledger.quick import Quick
from inventory.store.tables.buying import offer, purchase
from inventory.store.tables.counting import crate_event
from inventory.store.tables.identity import film, lot
from inventory.store.tables.kits import part as part_table
from inventory.store.tables.packing import packing_list
from inventory.store.tables.planning import plan, step_event
from inventory.store.tables.preparing import lay_out, stand_in

if TYPE_CHECKING:
    from collections.abc import Iterable

    from sqlalchemy import Connection, Table

_WORDS: dict[str, tuple[Table[Any], str]] = {
    "crate opened": (crate_event, "crate"),
    "crate closed": (crate_event, "crate"),
    "packing-list read": (packing_list, "source"),
    "plan read": (plan, "source"),
    "step start": (step_event, "step"),
    "step done": (step_event, "step"),
    "step done before the record": (step_event, "step"),
    "step reopen": (step_event, "step"),
    "lay-out": (lay_out, "section"),
}
"""Acts whose own row says in words what they were about."""
_PARTS: dict[str, Table[Any]] = {
    "lot record": lot,
    "lot extend": lot,
    "lot film": film,
    "substitute": stand_in,
    "offer": offer,
    "ordered": purchase,
}
"""Acts whose own row names a part."""


def subjects(
    db: Connection, kit: int, acts: Iterable[str], span: range
) -> dict[int, tuple[str, ...]]:
    """Return what each act of the span was about; `acts` are the words of those in it."""
    wanted = dict.fromkeys(each for each in map(_question, dict.fromkeys(acts)) if each)
    found: dict[int, dict[str, None]] = {}
    values = {"kit": kit, "first": span.start, "last": span.stop - 1}
    for question in wanted:
        for slip, words in question.rows(db, values):
            found.setdefault(slip, {})[words] = None
    return {slip: tuple(words) for slip, words in found.items()}


def _question(act: str) -> Quick | None:
    if act in _WORDS:
        return _words_in(*_WORDS[act])
    return _parts_in(_PARTS[act]) if act in _PARTS else None


@cache
def _words_in(table: Table[Any], column: str) -> Quick:
    asked = select(table.c.slip, table.c[column])
    return Quick(asked.where(*_within(table)).order_by(table.c.id))


@cache
def _parts_in(table: Table[Any]) -> Quick:
    p = part_table.c
    together = table.join(part_table, (p.kit == table.c.kit) & (p.id == table.c.part))
    asked = select(table.c.slip, p.printed).select_from(together)
    return Quick(asked.where(*_within(table), p.kit == bindparam("kit")).order_by(table.c.id))


def _within(table: Table[Any]) -> tuple[Any, ...]:
    return (
        table.c.kit == bindparam("kit"),
        table.c.slip.between(bindparam("first"), bindparam("last")),
    )
