"""Where each mark of a label goes; what doesn't fit well is refused, or left out and said."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from labels import code128
from labels.areas import GAP, LINE, SMALL_CAP
from labels.choices import Wanted
from labels.errors import LabelError
from labels.frame import FLAG, Frame, frames
from labels.geometry import Rect
from labels.label import FACES, Flag, Label, Line, Role
from labels.legibility import shortened
from labels.placing import FlagMark, LaidOut, Spot, Text
from labels.symbol import QUIET, cells
from labels.typeface import CAP_HEIGHT, Face, missing, tidy, width

if TYPE_CHECKING:
    from collections.abc import Sequence


_KEPT_WHOLE = frozenset({Role.HEADLINE, Role.NUMBER})


@dataclass(frozen=True, slots=True)
class _Sized:
    """A line and how wide it runs over the height of its capitals."""

    line: Line
    face: Face
    reach: float


def lay_out(label: Label, spot: Spot) -> LaidOut:
    """Return the marks of a label.

    Raises `LabelError` where a number or headline would be too small to read or has a character
    without a glyph, and where the symbols don't fit.
    """
    lines = [_sized(line) for line in label.lines if line.text]
    left_out: list[str] = []
    while True:
        wanted = _wanted(label, spot, lines)
        for frame in frames(wanted):
            if _holds(frame, label, lines):
                return _placed(label, spot, frame, lines, left_out)
        dropped = _first_to_go(lines)
        if dropped is None:
            raise _no_room(label, wanted, lines)
        left_out.append(f"no room for “{dropped.line.text}”")
        lines = [kept for kept in lines if kept is not dropped]


def _wanted(label: Label, spot: Spot, lines: Sequence[_Sized]) -> Wanted:
    """Return what the division of the label depends on."""
    square = label.square if label.content else None
    return Wanted(
        size=spot.size,
        margin=spot.margin,
        printer=spot.printer,
        cells=cells(label.content, square).size if square else 0,
        quiet=QUIET[square] if square else 0,
        bars=code128.width(label.content) if label.content and label.linear else 0,
        code_length=len(label.content),
        roles=tuple(sized.line.role for sized in lines),
        flag=label.flag is not None,
        distance=label.distance,
    )


def _sized(line: Line) -> _Sized:
    """Return the line as it can be printed, measured."""
    face = FACES[line.role]
    if not (line.text.isascii() and line.text.isprintable()):
        line = _printable(line)
    return _Sized(line, face, width(line.text, face) / CAP_HEIGHT)


def _printable(line: Line) -> Line:
    """Return the line with its blanks evened out; a number must have all its glyphs."""
    lost = missing(line.text)
    if lost and line.role in _KEPT_WHOLE:
        raise LabelError(
            f"{tidy(line.text)} holds a character that can't be printed: {', '.join(lost)}",
            "Write the number as the drawing shows it.",
        )
    return Line(tidy(line.text), line.role)


def _first_to_go(lines: Sequence[_Sized]) -> _Sized | None:
    """Return the line that a label can best do without: small print, then the last words."""
    for role in (Role.SMALL, Role.WORDS):
        for sized in reversed(lines):
            if sized.line.role is role:
                return sized
    return None


def _holds(frame: Frame, label: Label, lines: Sequence[_Sized]) -> bool:
    """Say whether everything that must stay whole fits into the frame's width."""
    room = frame.text.width
    for sized, cap in zip(lines, frame.caps, strict=True):
        if sized.line.role in _KEPT_WHOLE and sized.reach * cap > room:
            return False
    return label.flag is None or _flag_width(label.flag, frame.flag_cap) <= room


def _flag_width(flag: Flag, cap: float) -> float:
    """Return the width of a flag: its word, and an end of half its height on each side."""
    return width(flag.word, Face.BOLD) / CAP_HEIGHT * cap + FLAG * cap * 1.3


def _placed(
    label: Label, spot: Spot, frame: Frame, lines: Sequence[_Sized], left_out: Sequence[str]
) -> LaidOut:
    """Return the marks in this frame, text from the top down, the flag after the first line."""
    room = frame.text
    texts: list[Text] = []
    notes = list(left_out)
    flag: FlagMark | None = None
    y = room.y
    for place, sized in enumerate(lines):
        cap, text = _grown(sized, frame, place)
        if text != sized.line.text:
            notes.append(f"“{sized.line.text}” was shortened")
        texts.append(Text(room.x, y + cap, cap, sized.face, text))
        y += cap * LINE
        if label.flag and flag is None:
            flag = _flag_mark(label.flag, frame, y + GAP / 2)
            y = flag.area.bottom + GAP
    if label.flag and flag is None:
        flag = _flag_mark(label.flag, frame, y)
    if label.content:
        code = frame.code_line
        texts.append(Text(code.x, code.y + SMALL_CAP * 1.35, SMALL_CAP, Face.CODE, label.content))
        if label.linear and not frame.bar:
            notes.append("no room for Code 128")
    return LaidOut(label, spot, frame, tuple(texts), flag, tuple(notes))


def _grown(sized: _Sized, frame: Frame, place: int) -> tuple[float, str]:
    """Return the height of a line's capitals and its text, shortened where need be."""
    least = frame.caps[place]
    most = least * frame.growths[place]
    room = frame.text.width
    if sized.reach * most <= room:
        return most, sized.line.text
    if sized.reach * least <= room:
        return room / sized.reach, sized.line.text

    def fits(text: str) -> bool:
        return width(text, sized.face) / CAP_HEIGHT * least <= room

    return least, shortened(sized.line.text, fits)


def _flag_mark(flag: Flag, frame: Frame, y: float) -> FlagMark:
    """Return the flag under the first line, as large as the frame allows."""
    reach = _flag_width(flag, 1.0)
    cap = min(frame.flag_cap * frame.growths[-1], frame.text.width / reach)
    area = Rect(frame.text.x, y, reach * cap, FLAG * cap)
    word = width(flag.word, Face.BOLD) / CAP_HEIGHT * cap
    base = y + (area.height + cap) / 2
    return FlagMark(
        area, flag, Text(area.x + (area.width - word) / 2, base, cap, Face.BOLD, flag.word)
    )


def _no_room(label: Label, wanted: Wanted, lines: Sequence[_Sized]) -> LabelError:
    """Return the refusal, with the measure that is at fault."""
    across, down = wanted.size
    area = f"a label of {across:g} by {down:g} mm"
    name = f"label {label.content}" if label.content else "label"
    symbol = f"its {label.square or 'Code 128'} symbol and " if label.content else ""
    rooms = [frame.text.width for frame in frames(wanted)]
    if not rooms:
        return LabelError(
            f"{name}: {area} is too small for {symbol}{len(lines)}"
            f" line{'' if len(lines) == 1 else 's'} that can be read",
            "",
        )
    widest = max(lines, key=lambda sized: sized.reach, default=None)
    text = label.flag.word if widest is None and label.flag else widest.line.text if widest else ""
    return LabelError(f"{name}: {text} can't be printed large enough to read on {area}", "")
