"""Marks of a label: lines of type, flags and symbols, each with its place."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from labels.frame import Frame
    from labels.geometry import Rect
    from labels.label import Flag, Label
    from labels.printer import Printer
    from labels.typeface import Face


@dataclass(frozen=True, slots=True)
class Text:
    """One line of type: left end and base line in millimetres, height of its capitals too."""

    x: float
    base: float
    cap: float
    face: Face
    text: str


@dataclass(frozen=True, slots=True)
class FlagMark:
    """A flag and its word."""

    area: Rect
    flag: Flag
    word: Text


@dataclass(frozen=True, slots=True)
class Spot:
    """What a label is laid out for: the area of one face in millimetres, and the printer."""

    size: tuple[float, float]
    margin: tuple[float, float]
    printer: Printer


@dataclass(frozen=True, slots=True)
class LaidOut:
    """All marks of one label, from its top left corner."""

    label: Label
    spot: Spot
    frame: Frame
    texts: tuple[Text, ...]
    flag: FlagMark | None
    left_out: tuple[str, ...]
    """In words: what the label should carry but has no room for, or what was shortened."""
