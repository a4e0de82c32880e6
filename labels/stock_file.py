"""Label stocks kept as TOML files, those of the package and a person's own."""

from __future__ import annotations

import math
import tomllib
from pathlib import Path
from typing import TYPE_CHECKING

from labels.errors import LabelError
from labels.geometry import Rect
from labels.stock import Face, LabelStock, checked

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

_FOLDER = Path(__file__).parent / "stocks"
_PAIRS = ("page", "label", "grid", "first", "pitch")
_KEYS = frozenset({*_PAIRS, "margin", "lengths", "face", "cut"})
_FACE_KEYS = frozenset({"x", "y", "width", "height", "turned"})


def stock_names() -> tuple[str, ...]:
    """Return the names of the stocks that come with the package."""
    return tuple(sorted(path.name.removesuffix(".toml") for path in _FOLDER.glob("*.toml")))


def load_stock(name: str | Path) -> LabelStock:
    """Return a stock by its name, or from a person's own file ending in .toml.

    Raises `LabelError` for an unknown name and for a file that describes no printable sheet.
    """
    path = _FOLDER / f"{name}.toml" if str(name) in stock_names() else Path(name)
    if path.suffix != ".toml":
        raise LabelError(f"no label stock is named {name}", f"Known: {', '.join(stock_names())}.")
    return checked(_stock(path.name.removesuffix(".toml"), _read(path)))


def _read(path: Path) -> Mapping[str, object]:
    """Return the file's table."""
    try:
        return tomllib.loads(path.read_text(encoding="utf-8"))
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as fault:
        raise LabelError(f"{path.name} can't be read as a label stock: {fault}", _SEE) from fault


_SEE = "Start from a copy of one of the package's stocks."


def _stock(name: str, table: Mapping[str, object]) -> LabelStock:
    """Return the stock that the table describes, before its geometry is checked."""
    unknown = sorted(table.keys() - _KEYS)
    if unknown:
        raise _fault(name, f"{unknown[0]} is no measure of a stock")
    missing = [key for key in _PAIRS if key not in table]
    if missing:
        raise _fault(name, f"{missing[0]} is missing")
    columns, rows = _pair(name, table, "grid")
    if columns % 1 or rows % 1:
        raise _fault(name, "grid must be two whole numbers")
    return LabelStock(
        name=name,
        page=_pair(name, table, "page"),
        label=_pair(name, table, "label"),
        grid=(int(columns), int(rows)),
        first=_pair(name, table, "first"),
        pitch=_pair(name, table, "pitch"),
        margin=_pair(name, table, "margin") if "margin" in table else (1.5, 1.5),
        lengths=tuple(_numbers(name, "lengths", table.get("lengths", []))),
        faces=tuple(_face(name, face) for face in _tables(name, table.get("face", []))),
        cut=_yes_or_no(name, table, "cut"),
    )


def _face(name: str, table: Mapping[str, object]) -> Face:
    """Return one face of a folded tag."""
    if not table.keys() <= _FACE_KEYS or not _FACE_KEYS - {"turned"} <= table.keys():
        raise _fault(name, "each face needs x, y, width and height, and may be turned")
    turned = _yes_or_no(name, table, "turned")
    sides = [table[key] for key in ("x", "y", "width", "height")]
    x, y, width, height = _numbers(name, "face", sides)
    return Face(Rect(x, y, width, height), turned=turned)


def _yes_or_no(name: str, table: Mapping[str, object], key: str) -> bool:
    """Return true or false; false where nothing is said."""
    value = table.get(key, False)
    if not isinstance(value, bool):
        raise _fault(name, f"{key} must be true or false")
    return value


def _pair(name: str, table: Mapping[str, object], key: str) -> tuple[float, float]:
    """Return two numbers: across and down."""
    numbers = _numbers(name, key, table[key])
    match numbers:
        case [across, down]:
            return across, down
        case _:
            raise _fault(name, f"{key} must be two numbers, across and down")


def _numbers(name: str, key: str, value: object) -> Sequence[float]:
    """Return a list of numbers."""
    if not isinstance(value, list):
        raise _fault(name, f"{key} must be a list of numbers")
    numbers = [float(part) for part in value if isinstance(part, (int, float))]
    if len(numbers) != len(value) or not all(math.isfinite(number) for number in numbers):
        raise _fault(name, f"{key} must be a list of numbers")
    return numbers


def _tables(name: str, value: object) -> Sequence[Mapping[str, object]]:
    """Return the face tables."""
    if not isinstance(value, list) or not all(isinstance(part, dict) for part in value):
        raise _fault(name, "face must be a list of tables")
    return value


def _fault(name: str, what: str) -> LabelError:
    """Return the refusal of a file."""
    return LabelError(f"label stock {name}: {what}", _SEE)
