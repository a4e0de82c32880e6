"""Preparation of pieces: deburred, primed, or what else is on the builder's own list."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError, NotEnoughError
from inventory.core.frozen import frozen
from inventory.core.items import State
from inventory.core.places import PlaceKind
from inventory.core.planning.kept_pieces import Asking, Prepared, still_prepared
from inventory.core.planning.preparation import preparations
from inventory.jobs.acts import acting
from inventory.jobs.again import tried_again
from inventory.jobs.bench.finding_items import SeveralKindsError, item_words, known_part
from inventory.store.ledger.history import moved_at_steps
from inventory.store.ledger.stock import lying
from inventory.store.planning.plans import preparation_asked
from inventory.store.planning.preparations import Preparation, add_preparation, all_preparations

if TYPE_CHECKING:
    from collections.abc import Mapping

    from inventory.core.items import Item
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench
    from inventory.jobs.bench.finding_items import Asked
    from inventory.store.kits import Kit
    from inventory.store.opening.database import Connection


@frozen
class PreparedToday:
    """Every record of preparation, and how many of the pieces in the bins are prepared."""

    records: tuple[Preparation, ...]
    left: Mapping[tuple[str, Item], int]


@tried_again
def prepare(
    bench: Bench, asked: Asked, pieces: int, words: str, slip: Slip
) -> tuple[Preparation, ...]:
    """Record pieces in the bins as prepared; fewer than none where they no longer are.

    `words` may name several preparations: `deburred, primed`.
    """
    each = preparations(words)
    if not each or not pieces:
        raise InventoryError(
            "which preparation, of how many pieces?",
            remedy='For instance: kitwright prepared T2-RU-0401 4 --as "deburred, primed"',
        )
    with acting(bench, "prepared", slip) as act:
        item, there = _lying(act.db, bench.kit, asked)
        before = prepared_within(act.db, bench.kit, {item: there})
        done = tuple(Preparation(word=word, item=item, pieces=pieces) for word in each)
        for one in done:
            left = before.get((one.word, item), 0)
            if not 0 <= left + pieces <= there:
                raise NotEnoughError(
                    f"{there} of {item.part} lie in the bins, {left} of them are {one.word}",
                    where=item.part,
                    remedy="Record only the pieces that are meant.",
                )
            add_preparation(act.db, bench.kit.id, act.recorded.id, one)
        return done


def _lying(db: Connection, kit: Kit, asked: Asked) -> tuple[Item, int]:
    """Return the one item in the bins that is meant, and how much of it there is."""
    part = known_part(db, kit, asked.part)
    there: Counter[Item] = Counter()
    for lies in lying(db, kit.id, kinds=[PlaceKind.BIN], part=part.key):
        if lies.item.state is State.NEW and asked.agrees(lies.item):
            there[lies.item] += lies.quantity
    if not there:
        raise NotEnoughError(
            f"no new {part.printed} lies in a bin", remedy=f"Look: kitwright where {part.printed}"
        )
    if len(there) > 1:
        raise SeveralKindsError(
            f"several kinds of {part.printed} lie in the bins: "
            + "; ".join(f"{pieces} {item_words(item)}" for item, pieces in there.items()),
            remedy="Say which one with --hand, --lot or --length.",
        )
    return next(iter(there.items()))


def prepared_within(
    db: Connection, kit: Kit, usable: Mapping[Item, int]
) -> dict[tuple[str, Item], int]:
    """Return how many of the usable pieces are prepared, by word and item."""
    records = all_preparations(db, kit.id)
    if not records:
        return {}
    moved = moved_at_steps(db, kit.id, (each.item.part for each in records))
    asking = {
        Asking(step, part, word)
        for step, part, words in preparation_asked(db, kit.id)
        for word in preparations(words)
    }
    done = [Prepared(each.act, each.word, each.item, each.pieces) for each in records]
    return still_prepared(done, moved, asking, usable)


def prepared_today(bench: Bench) -> PreparedToday:
    """Return what was prepared when and by whom, and what of it lies in the bins."""
    with bench.store.reading() as db:
        usable: Counter[Item] = Counter()
        for lies in lying(db, bench.kit.id, kinds=[PlaceKind.BIN]):
            usable[lies.item] += lies.quantity
        return PreparedToday(
            tuple(all_preparations(db, bench.kit.id)), prepared_within(db, bench.kit, usable)
        )
