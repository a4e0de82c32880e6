"""The tables kept in the package, each row with its source."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

Row = dict[str, Any]
"""One row as TOML gives it; the module that asks for it turns it into values of its own."""


@cache
def kept_table(name: str) -> Mapping[str, Any]:
    """Return one table whole."""
    text = files("inventory.core").joinpath("kept", f"{name}.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


def kept_rows(name: str, key: str) -> Sequence[Row]:
    """Return the rows `[[key]]` of one table, in its order."""
    rows: Sequence[Row] = kept_table(name)[key]
    return rows
