"""Searching by a piece of a number or of a description: a list to look at, never an answer."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError
from inventory.core.frozen import frozen
from inventory.core.items import part_key
from inventory.jobs.bench.scan_meaning import MeaningKind, meaning
from inventory.store.ledger.names import all_parts

if TYPE_CHECKING:
    from inventory.jobs.acts import Bench
    from inventory.jobs.bench.scan_meaning import Meaning
    from inventory.store.ledger.names import PartName

MOST = 60


@frozen
class Found:
    """What a text may stand for."""

    meant: Meaning | None
    """The one thing it names exactly; None where it names none, or several."""
    parts: tuple[PartName, ...]
    """Parts whose number or description holds the text, by number."""
    more: int
    """How many of them are left out."""
    question: str = ""
    """What to look at where nothing was found."""


def search(bench: Bench, text: str) -> Found:
    """Return what a text names exactly, and every part whose words hold it."""
    with bench.store.reading() as db:
        meant, question = None, ""
        try:
            meant = meaning(db, bench.kit, text)
        except InventoryError as error:
            question = f"{error.what}. {error.remedy}"
        parts = all_parts(db, bench.kit.id).values()
    if meant is not None and meant.kind not in (
        MeaningKind.PART,
        MeaningKind.PLACE,
        MeaningKind.STEP,
    ):
        meant = None
    wanted = part_key(text)
    found = [
        part
        for part in parts
        if wanted and (wanted in part.key or wanted in part_key(part.description))
    ]
    found.sort(key=lambda part: (not part.key.startswith(wanted), part.key))
    return Found(meant, tuple(found[:MOST]), max(0, len(found) - MOST), "" if found else question)


def part_names(bench: Bench) -> dict[str, PartName]:
    """Return every part of the kit by its key, with its number as printed and its description."""
    with bench.store.reading() as db:
        return all_parts(db, bench.kit.id)
