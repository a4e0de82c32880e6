"""A person's own hardware families and replacement rules, in a file beside the store."""

from __future__ import annotations

import tomllib
from typing import TYPE_CHECKING

from inventory.core.counted import counted
from inventory.core.errors import InventoryError, Problem, ProblemsError
from inventory.core.frozen import frozen
from inventory.core.parts.hardware_grammar import families_from
from inventory.core.parts.supersession import rules_from
from inventory.store.opening.address import is_file, path_of

if TYPE_CHECKING:
    from pathlib import Path

    from inventory.core.parts.hardware_grammar import Family
    from inventory.core.parts.supersession import ReplacementRule

NAME = "hardware.toml"
_LARGEST = 1_000_000
_RULES = ("pair", "prefix", "worded")


@frozen
class OwnHardware:
    """What a person added to the tables kept in the package."""

    families: tuple[Family, ...] = ()
    rules: tuple[ReplacementRule, ...] = ()


def own_hardware(address: str, named: Path | None = None) -> OwnHardware:
    """Return what a named file adds; without one, a `hardware.toml` beside the store.

    A file with a mistake is refused whole: half a table would decode some numbers wrongly.
    """
    path = named or _beside(address)
    if path is None or (named is None and not path.is_file()):
        return OwnHardware()
    text = _text_of(path)
    try:
        table = tomllib.loads(text)
    except tomllib.TOMLDecodeError as wrong:
        raise _refused(
            path, [Problem(f"this is no TOML: {wrong}", path.name, "Mend the line.")]
        ) from wrong
    families: tuple[Family, ...] = ()
    rules: tuple[ReplacementRule, ...] = ()
    problems: list[Problem] = []
    if "family" in table or not any(key in table for key in _RULES):
        families, problems = families_from(text, path.name)
    if any(key in table for key in _RULES):
        rules, more = rules_from(text, path.name)
        problems += more
    if problems:
        raise _refused(path, problems)
    return OwnHardware(families, rules)


def _beside(address: str) -> Path | None:
    return path_of(address).with_name(NAME) if is_file(address) else None


def _text_of(path: Path) -> str:
    try:
        if path.stat().st_size > _LARGEST:
            raise InventoryError("the file is too large for a table of hardware", where=str(path))
        return path.read_text(encoding="utf-8-sig")
    except (OSError, UnicodeDecodeError) as fault:
        raise InventoryError(
            "the table of hardware can't be read as text",
            where=str(path),
            remedy="Save it as plain text (UTF-8).",
        ) from fault


def _refused(path: Path, problems: list[Problem]) -> ProblemsError:
    return ProblemsError(
        f"{path.name} holds {counted(len(problems), 'problem')}; it wasn't used",
        problems,
        remedy="Mend them, or take the file away.",
    )
