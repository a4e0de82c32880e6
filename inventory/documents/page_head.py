"""What stands on every paper: whose kit, which store, which day."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen

if TYPE_CHECKING:
    import datetime as dt


class PaperSize(StrEnum):
    """The papers that desk printers hold."""

    A4 = "a4"
    LETTER = "letter"


@frozen(kw_only=True)
class PageHead:
    """Names the kit, the store and the day on every page of a paper."""

    kit: str
    """The kit's name."""
    kit_code: str
    """Its two characters."""
    store_id: str
    printed_on: dt.date
    seal: str = ""
    """The ledger's seal, on papers that leave the house."""
    paper: PaperSize = PaperSize.A4

    def foot(self) -> str:
        """Return the line at the foot of a page, page numbers left out."""
        parts = [
            f"{self.kit} (kit {self.kit_code})",
            f"store {self.store_id}",
            f"printed {self.printed_on.isoformat()}",
        ]
        return " · ".join([*parts, f"seal {self.seal}"] if self.seal else parts)
