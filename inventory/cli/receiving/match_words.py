"""What a later list closes and frees, in words for the terminal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.cli.paragraphs import paragraph
from inventory.cli.show import hand_word
from inventory.cli.table import Column, drawn
from inventory.core.cautions import NEAR_NUMBER

if TYPE_CHECKING:
    from collections.abc import Iterator

    from inventory.jobs.lists.later_lists import Matching, Unmatched

_COLUMNS = (
    Column("row", number=True),
    Column("part number"),
    Column("hand"),
    Column("pieces", number=True),
    Column("closes", words=True),
)


def match_lines(found: Matching) -> Iterator[str]:
    """Return the lines that tell what is closed, what fits nothing open, and what is freed."""
    rows = [
        (
            each.line.line.row,
            each.line.line.printed,
            hand_word(each.line.line.hand),
            each.pieces,
            each.coming.source,
        )
        for each in found.matched
    ]
    rows += [
        (
            each.line.line.row,
            each.line.line.printed,
            hand_word(each.line.line.hand),
            each.pieces,
            _nothing(each),
        )
        for each in found.rest
    ]
    if rows:
        yield from drawn(_COLUMNS, sorted(rows)).splitlines()
    else:
        yield f"every line of list {found.packing_list} was matched before"
    if any(each.near for each in found.rest):
        yield from paragraph(NEAR_NUMBER)
    if found.frees:
        told = f"once it lies in bins, these steps are short no more: {', '.join(found.frees)}"
        yield from paragraph(told)
    if found.helps:
        yield from paragraph(f"short of less, yet still short: {', '.join(found.helps)}")


def _nothing(each: Unmatched) -> str:
    if each.near:
        return f"nothing open; is it {' or '.join(each.near)}?"
    return "nothing open: new, or sent twice"
