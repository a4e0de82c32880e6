"""Short ways to say in a test what lies where."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from inventory.core.places import Place, PlaceKind
from inventory.jobs.bench.finding_items import Asked, Taking
from inventory.jobs.bench.putting_away import Putting, add_bins, put
from inventory.store.ledger.stock import lying

if TYPE_CHECKING:
    from collections.abc import Callable

    from inventory.core.items import Hand, Item
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench

OPENING = Place(PlaceKind.OPENING)


def bin_(code: str) -> Place:
    return Place(PlaceKind.BIN, code)


def step(code: str) -> Place:
    return Place(PlaceKind.STEP, code)


def taking(
    part: str,
    pieces: int,
    origin: Place = OPENING,
    hand: Hand | None = None,
    lot: str | None = None,
) -> Taking:
    return Taking(Asked(part=part, hand=hand, lot=lot), pieces, origin)


def stocked(bench: Bench, slip: Callable[..., Slip], *rows: tuple[str, Taking]) -> None:
    """Put opening stock into bins, which are added on the way, under whatever numbers."""
    add_bins(bench, sorted({code for code, _ in rows}), "", slip())
    put(bench, [Putting(_as_new(wanted), code) for code, wanted in rows], slip())


def _as_new(wanted: Taking) -> Taking:
    return replace(wanted, asked=replace(wanted.asked, new=True))


def there(bench: Bench, place: Place) -> dict[Item, int]:
    with bench.store.reading() as db:
        return {lies.item: lies.quantity for lies in lying(db, bench.kit.id, place=place)}
