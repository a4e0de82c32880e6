"""The form of an export: one JSON object a line, rows of tables between a head and a foot.

Head: `{"kitwright export": 1, "schema": 5}`. Row: `{"table": "movement", "kit": 1, ...}` with
whole numbers, texts, null, and bytes as hexadecimal digits. Foot: how many rows each table has,
and the SHA-256 of all row lines with their line ends, the state hash.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError
from inventory.core.frozen import frozen

if TYPE_CHECKING:
    from collections.abc import Mapping

FORMAT = 1
_HEAD = "kitwright export"

Value = int | str | bytes | None


@frozen
class Foot:
    """What stands in the last line of an export."""

    rows: Mapping[str, int]
    sha256: str
    lost: str = ""
    """Of a damaged store: what could not be read."""


def head_line(schema: int) -> str:
    """Return the first line of an export of a store with this schema."""
    return _line({_HEAD: FORMAT, "schema": schema})


def row_line(table: str, row: Mapping[str, Value]) -> str:
    """Return one row of a table as a line."""
    shown = {
        name: value.hex() if isinstance(value, bytes) else value for name, value in row.items()
    }
    return _line({"table": table, **shown})


def foot_line(foot: Foot) -> str:
    """Return the last line of an export."""
    lost = {"lost": foot.lost} if foot.lost else {}
    return _line({"rows": dict(foot.rows), "sha256": foot.sha256, **lost})


def _line(words: Mapping[str, object]) -> str:
    return json.dumps(words, ensure_ascii=False, separators=(",", ":"))


def read_line(text: str, number: int) -> dict[str, object]:
    """Return a line's object; `number` is its place in the file, for the refusal."""
    try:
        found = json.loads(text)
    except ValueError as error:
        raise unfit(number, "the line can't be read as JSON") from error
    if not isinstance(found, dict):
        raise unfit(number, "the line is no JSON object")
    return found


def read_head(text: str) -> int:
    """Return the schema of the store that was exported."""
    head = read_line(text, 1)
    schema = head.get("schema")
    if head.get(_HEAD) != FORMAT or type(schema) is not int:
        raise unfit(1, f"the file isn't an export of form {FORMAT}")
    return schema


def read_foot(line: Mapping[str, object], number: int) -> Foot:
    """Return the foot; refuse what only looks like one."""
    rows, digest, lost = line.get("rows"), line.get("sha256"), line.get("lost", "")
    if not isinstance(rows, dict) or not isinstance(digest, str) or not isinstance(lost, str):
        raise unfit(number, "the last line is no foot: the file is cut off or was changed")
    return Foot(rows, digest, lost)


def read_value(value: object, kind: type[Value], number: int, column: str) -> Value:
    """Return a cell's value as its column wants it: whole number, text, or bytes from hex."""
    if kind is bytes and isinstance(value, str):
        try:
            return bytes.fromhex(value)
        except ValueError as error:
            raise unfit(number, f"{column} holds no hexadecimal digits") from error
    if type(value) is not kind:
        raise unfit(number, f"{column} holds {str(value)[:40]!r}")
    return value


def unfit(number: int, what: str) -> InventoryError:
    """Return the refusal of a line."""
    return InventoryError(
        what,
        where=f"line {number} of the export",
        remedy="Take another copy of the export. Nothing was stored.",
    )
