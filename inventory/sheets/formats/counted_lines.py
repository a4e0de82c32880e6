"""A list written as a person writes one: `4 x T2-101  Rib (LH)`, a line for each part."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from inventory.sheets.formats.plain_text import row_of
from inventory.sheets.packing.profiles import is_part_like

if TYPE_CHECKING:
    from collections.abc import Sequence

    from inventory.sheets.formats.book import Row

_QUOTED = re.compile(r"^(?:>\s?)+")
_TIMES = r"[x×]|off|ea(?:ch)?\.?|pcs?\.?|pieces?|no\.|stk\.?"
"""A number needs one of these beside it: alone it can as well be the line's own number."""
_FIRST = re.compile(
    rf"\s*(?:[-*•·]\s+)?(?P<pieces>[0-9]{{1,6}})\s*(?:{_TIMES})\s+"
    r"(?P<part>[^\s,;:]+)(?:[\s,;:–-]+(?P<words>.*?))?\s*",
    re.IGNORECASE,
)
_LAST = re.compile(
    r"\s*(?:[-*•·]\s+)?(?P<part>[^\s,;:]+)(?:[\s,;:–-]+(?P<words>.*?))?[\s,;:–-]+"
    rf"(?:(?:[x×]|qty)\s*(?P<after>[0-9]{{1,6}})|(?P<pieces>[0-9]{{1,6}})\s*(?:{_TIMES}))\s*",
    re.IGNORECASE,
)
_FEW = 3
_SHARE = 0.4
"""Of all lines that aren't blank, so many must count a part; the rest is greeting and titles."""


def counted_rows(lines: Sequence[str], name: str) -> list[Row] | None:
    """Return rows of pieces, part number and words; None where too few lines are of this kind."""
    read = [_cells(_QUOTED.sub("", line)) for line in lines]
    counted = sum(len(cells) > 1 for cells in read)
    filled = sum(bool(line.strip()) for line in lines)
    if counted < _FEW or counted < _SHARE * filled:
        return None
    width = ("", "")
    rows = [
        row_of(number, cells if len(cells) > 1 else (*width, *cells), name)
        for number, cells in enumerate(read, 1)
    ]
    while rows and rows[-1].blank:
        rows.pop()
    return rows


def _cells(line: str) -> tuple[str, ...]:
    for form in (_FIRST, _LAST):
        found = form.fullmatch(line)
        if found and is_part_like(found["part"]):
            pieces = found["pieces"] or found["after"]
            return pieces, found["part"], found["words"] or ""
    return (line.strip(),)
