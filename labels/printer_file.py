"""Printers as measured, kept in one TOML file: resolution and offsets by a name of their own."""

from __future__ import annotations

import json
import math
import tomllib
from typing import TYPE_CHECKING

from labels.errors import LabelError
from labels.printer import Printer

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

_HEAD = "# Printers and their offsets in millimetres, from the calibration page\n"


def load_printers(path: Path) -> Mapping[str, Printer]:
    """Return the printers by name; none where there is no file yet.

    Raises `LabelError` where the file can't be understood.
    """
    if not path.exists():
        return {}
    try:
        tables = tomllib.loads(path.read_text(encoding="utf-8"))
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as fault:
        raise LabelError(f"{path.name} can't be read: {fault}", _REMEDY) from fault
    return {name: _printer(path, name, table) for name, table in tables.items()}


def keep_printer(path: Path, name: str, printer: Printer) -> None:
    """Write the printer into the file, beside the others, under its name."""
    if not name.isprintable() or not name:
        raise LabelError("a printer's name must be a line of letters", "Choose another name.")
    printers = {**load_printers(path), name: printer}
    path.parent.mkdir(parents=True, exist_ok=True)
    written = path.with_suffix(".new")
    written.write_text(_HEAD + "".join(map(_written, printers.items())), encoding="utf-8")
    written.replace(path)


_REMEDY = "Mend it, or delete it and calibrate again."


def _written(named: tuple[str, Printer]) -> str:
    """Return a printer's table; JSON's strings are TOML's too."""
    name, printer = named
    return (
        f"\n[{json.dumps(name, ensure_ascii=False)}]\ndots_per_inch = {printer.dots_per_inch}\n"
        f"offset_x = {printer.offset_x!r}\noffset_y = {printer.offset_y!r}\n"
    )


def _printer(path: Path, name: str, table: object) -> Printer:
    """Return one printer."""
    match table:
        case {
            "dots_per_inch": int(dots),
            "offset_x": float() | int() as across,
            "offset_y": float() | int() as down,
        } if math.isfinite(across) and math.isfinite(down):
            return Printer(dots, float(across), float(down))
        case _:
            raise LabelError(f"{path.name}: {name} is no printer", _REMEDY)
