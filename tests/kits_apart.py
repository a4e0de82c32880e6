"""Every statement that any test says to a store must name the kit of every table of a kit."""

from __future__ import annotations

import re
import traceback
from functools import cache
from typing import TYPE_CHECKING, Any

from sqlalchemy import event
from sqlalchemy.engine import Engine
from sqlalchemy.sql.elements import TextClause

from inventory.store.tables.whole import metadata

if TYPE_CHECKING:
    from collections.abc import Iterator

OF_THE_STORE = {"kit", "setting", "device", "invitation"}
"""Tables that belong to no kit: copied whole to every machine of a store split by kit."""
OF_KITS = set(metadata.tables) - OF_THE_STORE
WHOLE_STORE = tuple(
    f"store/record/{name}.py" for name in ("state", "saving", "refilling", "checking")
)
"""Modules that copy or check the store as a whole."""
_NAMED = re.compile(r"(?:FROM|JOIN|UPDATE|,) (\w+)(?: AS (\w+))?(?= |$|,|\n)")


@cache
def without_kit(statement: str) -> frozenset[str]:
    """Return the tables of a kit that a statement uses without naming the kit."""
    plain = " ".join(statement.replace('"', "").split())
    if plain.startswith("INSERT INTO"):
        table = plain.split()[2]
        named = re.match(rf"INSERT INTO {table} \(([^)]*)\)", plain)
        columns = named[1].split(", ") if named else []
        return frozenset({table} & OF_KITS if "kit" not in columns else ())
    used = {(table, alias or table) for table, alias in _NAMED.findall(plain) if table in OF_KITS}
    return frozenset(
        table for table, name in used if not re.search(rf"\b{name}\.kit (=|IN)", plain)
    )


def refuse_without_kit(*given: Any) -> None:  # noqa: ANN401 - the event's own arguments
    """Fail the test that says a statement across kits."""
    _, _, statement, _, context, _ = given
    compiled = getattr(context, "compiled", None)
    if compiled is None or isinstance(compiled.statement, TextClause):
        return
    lacking = without_kit(statement)
    if lacking and _said_by_a_job():
        raise AssertionError(f"{sorted(lacking)} without the kit: {statement}")


def _said_by_a_job() -> bool:
    """Say whether a module of ours asks, and not a test, nor one that reads the whole store."""
    files = [frame.filename for frame in traceback.extract_stack()]
    asking = [name for name in files if "sqlalchemy" not in name and name != __file__]
    return "/inventory/" in asking[-1] and not asking[-1].endswith(WHOLE_STORE)


def kits_kept_apart() -> Iterator[None]:
    """Watch all engines of this process."""
    event.listen(Engine, "before_cursor_execute", refuse_without_kit)
    yield
    event.remove(Engine, "before_cursor_execute", refuse_without_kit)
