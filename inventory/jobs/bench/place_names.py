"""The place a person names in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError, NotFoundError
from inventory.core.items import part_key
from inventory.core.places import Place, PlaceKind, crate_code
from inventory.jobs.bench.putting_away import known_bin
from inventory.jobs.planning.planning import known_step
from inventory.jobs.receiving.receiving import known_crate
from inventory.store.planning.plans import step_codes

if TYPE_CHECKING:
    from inventory.jobs.acts import Bench
    from inventory.store.kits import Kit
    from inventory.store.opening.database import Connection

_ALONE = {
    "BOUGHT": Place(PlaceKind.BOUGHT),
    "MADE": Place(PlaceKind.MADE),
    "OPENING": Place(PlaceKind.OPENING),
    "HOLD": Place(PlaceKind.HOLD, "HOLD"),
}

REMEDY = "Say a bin, `crate 2/H1`, `step 10-02`, hold, bought, made or opening."


def place_named(bench: Bench, text: str) -> Place:
    """Return the place of the words: a bin, `crate 2/H1`, `step 10-02`, `hold`, `bought`, ..."""
    with bench.store.reading() as db:
        return _named(db, bench.kit, part_key(text))


def _named(db: Connection, kit: Kit, text: str) -> Place:
    if not text:
        raise InventoryError("no place was said", remedy=REMEDY)
    if text in _ALONE:
        return _ALONE[text]
    kind, _, rest = text.partition(" ")
    if kind == "CRATE" and rest:
        crate, _, bag = rest.partition("/")
        return Place(PlaceKind.CRATE, crate_code(known_crate(db, kit, crate), bag.strip()))
    if kind == "STEP" and rest:
        return Place(PlaceKind.STEP, known_step(step_codes(db, kit.id), rest))
    if kind == "HOLD":
        return Place(PlaceKind.HOLD, rest)
    try:
        return known_bin(db, kit, text)
    except NotFoundError as error:
        raise NotFoundError(error.what, remedy=f"{error.remedy} {REMEDY}") from error
