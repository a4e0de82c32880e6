"""Counting a crate by scanning: each scanned part is one piece."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError
from inventory.core.receiving.counts import Count, Method
from inventory.jobs.bench.finding_items import item_from_outside, item_words
from inventory.jobs.bench.scan_meaning import MeaningKind, meaning
from inventory.jobs.receiving.receiving import count, known_crate
from inventory.store.receiving.counts import RecordedCount

if TYPE_CHECKING:
    from inventory.core.items import Item
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench


@dataclass(slots=True)
class ScanCount:
    """Pieces scanned in one crate or bag so far; nothing is stored before `store`."""

    bench: Bench
    crate: str
    bag: str = ""
    _pieces: Counter[Item] = field(default_factory=Counter)
    _order: list[Item] = field(default_factory=list)

    def scan(self, text: str) -> str:
        """Take one scan and return the answer in a line; `undo` may be scanned or typed."""
        if text.strip().casefold() == "undo":
            return self._off()
        try:
            with self.bench.store.reading() as db:
                meant = meaning(db, self.bench.kit, text)
                if meant.kind is MeaningKind.CONTROL and meant.text == "UNDO":
                    return self._off()
                if meant.asked is None:
                    return f"NOT OK: {meant.kind}, not a part. Scan the parts of the crate."
                item = item_from_outside(db, self.bench.kit, meant.asked)
        except InventoryError as error:
            return f"NOT OK: {error.what}. {error.remedy}"
        self._pieces[item] += 1
        self._order.append(item)
        return f"{self._pieces[item]} x {item.part} {item_words(item)}"

    def _off(self) -> str:
        if not self._order:
            return "NOT OK: nothing was scanned yet."
        item = self._order.pop()
        self._pieces[item] -= 1
        return f"UNDONE: {self._pieces[item]} x {item.part} {item_words(item)}"

    def store(self, slip: Slip, *, again: str = "") -> list[Count]:
        """Record all that was scanned, in one act; `again` is recount or more, if need be."""
        with self.bench.store.reading() as db:
            crate = known_crate(db, self.bench.kit, self.crate)
        counts = [
            Count(
                part=item.part,
                hand=item.hand,
                lot=item.lot,
                length=item.length,
                crate=crate,
                bag=" ".join(self.bag.upper().split()),
                pieces_good=pieces,
                method=Method.SCANNED,
                by=slip.person,
            )
            for item, pieces in self._pieces.items()
            if pieces
        ]
        if counts:
            count(
                self.bench,
                [RecordedCount(0, 0, each, each.part, again == "recount") for each in counts],
                slip,
                more=again == "more",
            )
        return counts
