"""The looks of an .xlsx workbook: which style index is struck out, filled, bold, set in."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, TypeVar
from xml.parsers import expat

from inventory.core.frozen import frozen
from inventory.sheets.formats.number_formats import BUILT_IN

if TYPE_CHECKING:
    from collections.abc import Sequence

    from inventory.sheets.formats.container import Container

_Kind = TypeVar("_Kind")
SEPARATOR = "}"
"""Between a namespace and a name, as the parsers of workbook parts hand them on."""
_WHITE = frozenset({"9", "1", "64", "65"})
"""Indexed colours that show as no fill: white, and the window's own (ECMA-376 18.8.27)."""


@frozen
class Style:
    """What a cell's style says beyond its text."""

    number_format: str = ""
    """Empty for General and for text."""
    strike: bool = False
    bold: bool = False
    fill: str = ""
    indent: int = 0


class _StyleReader:
    """Collects fonts, fills, formats and cell styles while styles.xml goes by."""

    def __init__(self) -> None:
        self.styles: list[Style] = []
        self._fonts: list[Style] = []
        self._fills: list[str] = []
        self._pattern = ""
        self._formats = dict(BUILT_IN)
        self._path: list[str] = []
        self._starts = {
            "fonts/font": self._font,
            "fonts/font/strike": self._strike,
            "fonts/font/b": self._bold,
            "fills/fill": self._fill,
            "fills/fill/patternFill": self._pattern_fill,
            "fills/fill/patternFill/fgColor": self._colour,
            "numFmts/numFmt": self._format,
            "cellXfs/xf": self._style,
            "cellXfs/xf/alignment": self._alignment,
        }

    def start(self, name: str, attributes: dict[str, str]) -> None:
        """Take what a start tag says."""
        self._path.append(name.rpartition(SEPARATOR)[2])
        take = self._starts.get("/".join(self._path[1:]))
        if take is not None:
            take(attributes)

    def end(self, _name: str) -> None:
        """Leave the element."""
        self._path.pop()

    def _font(self, _: dict[str, str]) -> None:
        self._fonts.append(Style())

    def _strike(self, attributes: dict[str, str]) -> None:
        self._fonts[-1] = replace(self._fonts[-1], strike=_is_on(attributes))

    def _bold(self, attributes: dict[str, str]) -> None:
        self._fonts[-1] = replace(self._fonts[-1], bold=_is_on(attributes))

    def _fill(self, _: dict[str, str]) -> None:
        self._fills.append("")
        self._pattern = "none"

    def _pattern_fill(self, attributes: dict[str, str]) -> None:
        self._pattern = attributes.get("patternType", "none")

    def _colour(self, attributes: dict[str, str]) -> None:
        if self._pattern != "none":
            self._fills[-1] = _colour_name(attributes)

    def _format(self, attributes: dict[str, str]) -> None:
        self._formats[int(attributes["numFmtId"])] = attributes.get("formatCode", "")

    def _style(self, attributes: dict[str, str]) -> None:
        shown = self._formats.get(int(attributes.get("numFmtId", "0")), "").strip()
        font = _at(self._fonts, attributes.get("fontId", "0"), Style())
        fill = _at(self._fills, attributes.get("fillId", "0"), "")
        plain = shown.lower() in {"general", "@"}
        self.styles.append(replace(font, number_format="" if plain else shown, fill=fill))

    def _alignment(self, attributes: dict[str, str]) -> None:
        indent = int(float(attributes.get("indent", "0")))
        self.styles[-1] = replace(self.styles[-1], indent=indent)


def _is_on(attributes: dict[str, str]) -> bool:
    return attributes.get("val", "1").lower() not in {"0", "false", "none"}


def _at(values: Sequence[_Kind], index: str, missing: _Kind) -> _Kind:
    number = int(index)
    return values[number] if 0 <= number < len(values) else missing


def _colour_name(attributes: dict[str, str]) -> str:
    if "rgb" in attributes:
        colour = attributes["rgb"][-6:].upper()
        return "" if colour == "FFFFFF" else colour
    if "theme" in attributes:
        tint = float(attributes.get("tint", "0"))
        return "" if attributes["theme"] == "0" and tint == 0 else f"theme {attributes['theme']}"
    indexed = attributes.get("indexed", "64")
    return "" if indexed in _WHITE else f"indexed {indexed}"


def read_styles(container: Container, part: str) -> Sequence[Style]:
    """Return the cell styles of a workbook by their index; none where it has no such part."""
    if part not in container.names:
        return ()
    reader = _StyleReader()
    parser = expat.ParserCreate(namespace_separator=SEPARATOR)
    parser.StartElementHandler = reader.start
    parser.EndElementHandler = reader.end
    container.parse(part, parser)
    return reader.styles
