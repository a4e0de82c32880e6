"""Promises: by when the other side says that pieces will come."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError, NotFoundError
from inventory.core.frozen import frozen
from inventory.core.items import part_key
from inventory.core.parts.hands import hand_in_words
from inventory.core.receiving.arrivals import Promise, Wanted
from inventory.core.receiving.still_to_come import standing_promises
from inventory.jobs.acts import acting
from inventory.jobs.again import tried_again
from inventory.jobs.receiving.still_coming import receipt_within
from inventory.store.receiving.arrivals import (
    add_promises,
    all_arrivals,
    all_expected,
    all_promises,
)

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from datetime import date

    from inventory.core.receiving.still_to_come import Coming
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench
    from inventory.jobs.bench.finding_items import Asked
    from inventory.store.kits import Kit
    from inventory.store.opening.database import Connection


@frozen(kw_only=True)
class Promised:
    """What was promised, as a person says it."""

    asked: Asked
    pieces: int = 0
    """0 for all that is still to come."""
    promised: date | None
    """None takes the date back."""
    latest: date | None = None
    words: str = ""
    more: bool = False
    """It comes beside what was promised before, not in its place."""


@tried_again
def promise(bench: Bench, told: Promised, slip: Slip) -> list[Coming]:
    """Record a promise; return what is still to come of that part with its dates."""
    check_days(told.promised, told.latest)
    with acting(bench, "claims promised", slip) as act:
        coming = receipt_within(act.db, bench.kit).coming
        wanted = _meant(told.asked, coming)
        there = sum(each.pieces for each in coming if each.wanted == wanted)
        if not 0 <= told.pieces <= there:
            raise InventoryError(
                f"{told.pieces} of {there} still to come can't be",
                remedy="Leave --pieces out where all of them are promised.",
            )
        said = Promise(
            slip=act.recorded.id,
            wanted=wanted,
            pieces=told.pieces,
            promised=told.promised,
            latest=told.latest,
            words=told.words,
        )
        record_promises(act.db, bench.kit, act.recorded.id, [said], more=told.more)
        after = receipt_within(act.db, bench.kit).coming
        return [each for each in after if each.wanted == wanted]


def record_promises(
    db: Connection, kit: Kit, slip: int, promises: Sequence[Promise], *, more: bool
) -> None:
    """Record promises; with `more` those that stand for the same items are said again."""
    kept: list[Promise] = []
    if more:
        standing = standing_promises(
            all_promises(db, kit.id), all_arrivals(db, kit.id), all_expected(db, kit.id)
        )
        for wanted in dict.fromkeys(each.wanted for each in promises):
            kept += [replace(each, slip=slip) for each in standing[wanted] if each.pieces]
    add_promises(db, kit.id, slip, [*kept, *promises])


def check_days(promised: date | None, latest: date | None) -> None:
    """Refuse a range that ends before it begins."""
    if latest is not None and (promised is None or latest < promised):
        raise InventoryError(
            f"the late end {latest} is before the promise", remedy="Give the earlier day first."
        )


def _meant(asked: Asked, coming: Iterable[Coming]) -> Wanted:
    key = part_key(asked.part)
    of_part = [each.wanted for each in coming if each.wanted.part == key]
    found = {
        wanted
        for wanted in of_part
        if asked.hand in (None, wanted.hand) and asked.length in (None, wanted.length)
    }
    if len(found) == 1:
        return found.pop()
    if found:
        hands = " or ".join(sorted(hand_in_words(each.hand) for each in found))
        raise InventoryError(f"{key} is to come {hands}", remedy="Say --hand or --length.")
    raise NotFoundError(
        f"nothing of {key} is still to come" + (" of that hand or length" if of_part else ""),
        remedy="Look: kitwright claims due",
    )
