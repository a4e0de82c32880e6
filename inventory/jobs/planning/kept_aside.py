"""What is set aside for steps today, and whether others may still have some."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.errors import NotEnoughError
from inventory.core.items import State
from inventory.core.places import PlaceKind
from inventory.core.planning.kept_pieces import still_kept
from inventory.jobs.bench.finding_items import in_measure
from inventory.store.ledger.history import moved_at_steps
from inventory.store.ledger.stock import lying
from inventory.store.planning.standing import standing

if TYPE_CHECKING:
    from collections.abc import Iterable

    from inventory.core.items import Item
    from inventory.core.planning.workshop import SetAside
    from inventory.jobs.acts import Bench
    from inventory.store.kits import Kit
    from inventory.store.opening.database import Connection


def of_kind(kind: Item, item: Item) -> bool:
    """Say whether a piece is of the kind: part, hand and length, and the lot where one is said."""
    same = (kind.part, kind.hand, kind.length) == (item.part, item.hand, item.length)
    return same and (kind.lot in ("", item.lot) or not item.lot)


def kept_words(db: Connection, kit: Kit, kept: Iterable[SetAside]) -> str:
    """Say for which steps how many are kept, behind a sentence."""
    return "".join(
        f"; {in_measure(db, kit, each.item.part, each.quantity)} are set aside for step {each.step}"
        for each in kept
    )


def kept_now(db: Connection, kit: Kit, parts: Iterable[str] | None = None) -> list[SetAside]:
    """Return what is still set aside for steps not done; of some parts only where asked."""
    now = standing(db, kit.id)
    only = None if parts is None else set(parts)
    kept = [each for each in now.kept if only is None or each.set_aside.item.part in only]
    moved = moved_at_steps(db, kit.id, (each.set_aside.item.part for each in kept))
    open_steps = {
        code
        for codes in now.codes.values()
        for code in codes
        if now.states.get(code) not in ("done", "built before")
    }
    return list(still_kept(kept, moved, open_steps))


def new_in_bins(db: Connection, kit: Kit, kind: Item) -> int:
    """Return how many new pieces of a kind lie in bins."""
    return sum(
        lies.quantity
        for lies in lying(db, kit.id, kinds=[PlaceKind.BIN], part=kind.part)
        if lies.item.state is State.NEW and of_kind(kind, lies.item)
    )


def refuse_kept(db: Connection, kit: Kit, item: Item, pieces: int, step: str) -> None:
    """Refuse pieces of which too many are set aside for other steps."""
    if not any(each.set_aside.item.part == item.part for each in standing(db, kit.id).kept):
        return
    others = [
        kept
        for kept in kept_now(db, kit, [item.part])
        if kept.step != step and of_kind(kept.item, item)
    ]
    there = new_in_bins(db, kit, item)
    if others and there - sum(kept.quantity for kept in others) < pieces:
        raise NotEnoughError(
            f"{in_measure(db, kit, item.part, there)} of {item.part} lie in the bins"
            + kept_words(db, kit, others),
            where=f"step {step}",
            remedy=f"Let them go first: kitwright set-aside {item.part} 0 --step {others[0].step}",
        )


def all_kept(bench: Bench) -> list[SetAside]:
    """Return all that is still set aside."""
    with bench.store.reading() as db:
        return kept_now(db, bench.kit)
