"""The tables, indexes and triggers a store should have, made anew to be compared with it."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from sqlalchemy import create_engine, text

from inventory.core.errors import Problem
from inventory.store.opening.migrate import upgrade

if TYPE_CHECKING:
    from sqlalchemy import Connection

_SQLITE = "SELECT name, sql FROM sqlite_master WHERE sql <> ''"
_TRIGGERS = """
SELECT tgname, pg_get_triggerdef(pg_trigger.oid) || tgenabled::text || prosrc FROM pg_trigger
JOIN pg_proc ON pg_proc.oid = tgfoid JOIN pg_class ON pg_class.oid = tgrelid
WHERE NOT tgisinternal AND relnamespace = current_schema()::regnamespace
"""
REMEDY = "Somebody changed the store by other means. Restore a backup, or ask who did."


def changed_schema(db: Connection, schema: int) -> list[Problem]:
    """Return what a store lacks, has too much, or has in another form than its schema says."""
    if db.dialect.name == "sqlite":
        there = _named(db, _SQLITE)
        should = _made_anew(schema)
        return [
            *(_problem(name, "is missing") for name in should.keys() - there.keys()),
            *(_problem(name, "doesn't belong here") for name in there.keys() - should.keys()),
            *(
                _problem(name, "was changed")
                for name in should.keys() & there.keys()
                if should[name] != there[name]
            ),
        ]
    return _on_server(db, schema)


def _named(db: Connection, question: str) -> dict[str, str]:
    return {str(name): str(words) for name, words in db.execute(text(question))}


@cache
def _made_anew(schema: int) -> dict[str, str]:
    engine = create_engine("sqlite://")
    with engine.begin() as db:
        upgrade(db, schema)
        made = _named(db, _SQLITE)
    engine.dispose()
    return made


def _on_server(db: Connection, schema: int) -> list[Problem]:
    """Look at the guards alone: their names, that they are on, and which functions they call."""
    there = _named(db, _TRIGGERS)
    wanted = {
        f"{name.removesuffix('_no_update')}{end}": "append only"
        for name in _made_anew(schema)
        if name.endswith("_no_update")
        for end in ("_no_update", "_no_delete", "_no_truncate")
    } | {"movement_keeps_balance": "below zero"}
    missing = [_problem(name, "is missing") for name in wanted.keys() - there.keys()]
    return missing + [
        _problem(name, "is switched off or was changed")
        for name, words in wanted.items()
        if name in there and not _guards(there[name], words)
    ]


def _guards(found: str, words: str) -> bool:
    definition, _, source = found.partition("()")
    return source.startswith("O") and words in source and "EXECUTE FUNCTION" in definition


def _problem(name: str, what: str) -> Problem:
    kind = "the guard" if "_no_" in name or name.endswith("balance") else "the table or index"
    return Problem(f"{kind} {name} {what}", "store", REMEDY)
