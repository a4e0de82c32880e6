"""What stands about a row of a packing list, as far as its class depends on it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.frozen import frozen

if TYPE_CHECKING:
    from collections.abc import Container

    from inventory.core.lists.packing import RowClass
    from inventory.sheets.packing.row_views import RowView


@frozen(kw_only=True)
class Surroundings:
    """What stands about a row."""

    before: RowClass
    """The class of the last row that isn't blank."""
    gap: bool
    """True where a blank row, a header or nothing stands right above."""
    following: RowView | None
    """The next row that isn't blank; None at the end."""
    title_block: Container[str] = frozenset()
    """What the title block says, numbers aside."""
    bold_parts: bool = False
    """True where part rows themselves are bold, so that bold says nothing."""
    filled_parts: bool = False
    """The same for a background colour."""
    merged: bool = False
    """True where the row's text is merged over several columns."""
    numbered: bool = False
    """True where part rows have a number of their own on the list."""
    above_header: bool = False
    """True where a header row follows."""
