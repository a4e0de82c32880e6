"""Giving places and items their numbers, so that labels can be printed."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from inventory.core.errors import NotFoundError
from inventory.core.frozen import frozen
from inventory.core.items import Hand
from inventory.core.natural_order import natural
from inventory.core.places import Place, PlaceKind
from inventory.jobs.bench.finding_items import known_part
from inventory.jobs.bench.putting_away import known_bin
from inventory.jobs.planning.planning import known_step
from inventory.jobs.receiving.receiving import known_crate
from inventory.store.ledger.names import all_parts, places_of
from inventory.store.ledger.stock import lying
from inventory.store.ledger.tags import tags_for
from inventory.store.planning.plans import current_plan
from inventory.store.receiving.packing_lists import current_lines

if TYPE_CHECKING:
    from collections.abc import Sequence

    from inventory.core.items import Item
    from inventory.core.planning.plan import Step
    from inventory.jobs.acts import Bench
    from inventory.store.ledger.names import PartName
    from inventory.store.opening.database import Connection


_PLAIN_NUMBER = re.compile(r"[0-9A-Z./+: -]{1,40}")
"""Part numbers that every scanner can send; others are known by a number of ours."""


@frozen
class NumberedBin:
    """A bin with its number for the label, and what lies in it."""

    place: Place
    own_id: str
    contents: tuple[tuple[Item, PartName], ...]
    """Each item once, with its part's words."""


@frozen
class NumberedItem:
    """An item with its number, what the part is called, where it lies, and which steps use it."""

    item: Item
    own_id: str
    """Empty where the part number says all: no hand, no lot, no length."""
    part: PartName
    places: tuple[Place, ...]
    steps: tuple[str, ...]


def numbered_bins(bench: Bench, names: Sequence[str] = ()) -> list[NumberedBin]:
    """Return the bins named, or all; each is given a number if it has none yet.

    Numbers are given once and stay: printing again gives the same label.
    """
    with bench.store.writing(bench.kit.id) as db:
        every = list(places_of(db, bench.kit.id, PlaceKind.BIN))
        places = [known_bin(db, bench.kit, name) for name in names] or every
        if not places:
            raise NotFoundError(
                "there are no bins yet", remedy="Add them: kitwright bin add B-01..B-12"
            )
        numbers = tags_for(db, bench.kit, places)
        there = lying(db, bench.kit.id, kinds=[PlaceKind.BIN])
        parts = all_parts(db, bench.kit.id)
    return [
        NumberedBin(
            place,
            numbers[place],
            tuple((lies.item, parts[lies.item.part]) for lies in there if lies.place == place),
        )
        for place in places
    ]


def numbered_items(
    bench: Bench, names: Sequence[str], kinds: Sequence[PlaceKind], *, bags: bool = False
) -> list[NumberedItem]:
    """Return the items that lie in places of these kinds, of the parts named or of all.

    An item is given a number where its part number doesn't say all of it: a hand, a lot, a
    length; with `bags` every item is, and all means what the lists say came in bags.
    """
    with bench.store.writing(bench.kit.id) as db:
        keys = {known_part(db, bench.kit, name).key for name in names}
        if bags and not names:
            keys = _bagged(db, bench.kit.id)
        there = [
            lies
            for lies in lying(db, bench.kit.id, kinds=kinds)
            if lies.quantity > 0 and (not keys or lies.item.part in keys)
        ]
        items = list(dict.fromkeys(lies.item for lies in there))
        numbered = [item for item in items if bags or _says_more(item)]
        numbers = tags_for(db, bench.kit, numbered)
        parts = all_parts(db, bench.kit.id)
        needs = current_plan(db, bench.kit.id).needs
    return [
        NumberedItem(
            item,
            numbers.get(item, ""),
            parts[item.part],
            tuple(lies.place for lies in there if lies.item == item),
            tuple(dict.fromkeys(need.step for need in needs if need.part == item.part)),
        )
        for item in items
    ]


def _bagged(db: Connection, kit: int) -> set[str]:
    """Return the parts of which a list says that they came in a bag."""
    keys = {line.part for line in current_lines(db, kit) if line.bag}
    if not keys:
        raise NotFoundError(
            "no list names a bag yet", remedy="Name the parts: kitwright labels bags PART"
        )
    return keys


def _says_more(item: Item) -> bool:
    plain = _PLAIN_NUMBER.fullmatch(item.part) is not None
    return item.hand is not Hand.NONE or bool(item.lot or item.length) or not plain


def numbered_steps(bench: Bench, codes: Sequence[str]) -> list[tuple[Step, str]]:
    """Return the steps named, or all of the plan, each with its number."""
    with bench.store.writing(bench.kit.id) as db:
        steps = current_plan(db, bench.kit.id).steps
        wanted = {known_step((step.code for step in steps), code) for code in codes}
        chosen = [step for step in steps if not wanted or step.code in wanted]
        if not chosen:
            raise NotFoundError("no plan was read yet", remedy="kitwright plan read PLAN.xlsx")
        places = {step.code: Place(PlaceKind.STEP, step.code) for step in chosen}
        numbers = tags_for(db, bench.kit, list(places.values()))
    return [(step, numbers[places[step.code]]) for step in chosen]


def numbered_crates(bench: Bench, names: Sequence[str]) -> list[tuple[str, str]]:
    """Return the crates named, or all of the lists, each with its number."""
    with bench.store.writing(bench.kit.id) as db:
        lines = current_lines(db, bench.kit.id)
        crates = [known_crate(db, bench.kit, name) for name in names] or sorted(
            {line.crate for line in lines if line.crate}, key=natural
        )
        if not crates:
            raise NotFoundError("no list names a crate yet", remedy="Read the packing list first.")
        places = {crate: Place(PlaceKind.CRATE, crate) for crate in crates}
        numbers = tags_for(db, bench.kit, list(places.values()))
    return [(crate, numbers[place]) for crate, place in places.items()]
