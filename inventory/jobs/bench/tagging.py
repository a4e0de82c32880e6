"""What a HOLD or SCRAP tag has to say: which pieces they are, why they lie there, since when."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.places import PlaceKind
from inventory.jobs.bench.labelling import NumberedItem, numbered_items
from inventory.store.ledger.history import movements
from inventory.store.ledger.slips import all_slips, undone_slips

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from inventory.core.items import Item
    from inventory.jobs.acts import Bench
    from inventory.store.ledger.slips import RecordedSlip
    from inventory.store.opening.database import Connection


@frozen
class TaggedItem:
    """An item on hold or scrapped, and the newest act that brought pieces of it there."""

    numbered: NumberedItem
    kind: PlaceKind
    why: str
    """What the person said, else the name of the act."""
    on: date | None
    person: str


def tagged_items(bench: Bench, names: Sequence[str]) -> list[TaggedItem]:
    """Return all that is on hold, then all that is scrapped, of the parts named or of all."""
    found = [
        (kind, numbered)
        for kind in (PlaceKind.HOLD, PlaceKind.SCRAP)
        for numbered in numbered_items(bench, names, [kind])
    ]
    with bench.store.reading() as db:
        brought = _brought_there(db, bench.kit.id)
    return [_tagged(numbered, kind, brought.get((kind, numbered.item))) for kind, numbered in found]


def _brought_there(db: Connection, kit: int) -> dict[tuple[PlaceKind, Item], RecordedSlip]:
    """Return the newest act that counts and brought an item on hold or to the scrap."""
    undone = undone_slips(db, kit)
    slips = {each.id: each for each in all_slips(db, kit)}
    return {
        (each.movement.destination.kind, each.movement.item): slips[each.slip]
        for each in movements(db, kit)
        if each.movement.destination.kind in (PlaceKind.HOLD, PlaceKind.SCRAP)
        and each.slip not in undone
        and slips[each.slip].undoes is None
    }


def _tagged(numbered: NumberedItem, kind: PlaceKind, act: RecordedSlip | None) -> TaggedItem:
    if act is None:
        return TaggedItem(numbered, kind, "", None, "")
    return TaggedItem(
        numbered, kind, act.slip.note or act.act, act.slip.happened_on, act.slip.person
    )
