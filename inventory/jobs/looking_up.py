"""Looking things up: where a part is, which steps use it, what a step waits for."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from inventory.core.picking import fetches
from inventory.core.places import PlaceKind
from inventory.core.ready import steps_ready
from inventory.jobs.finding_items import known_part
from inventory.jobs.planning import known_step
from inventory.jobs.workshop_today import today, today_within
from inventory.store.packing_lists import current_lines
from inventory.store.stock import lying

if TYPE_CHECKING:
    from inventory.core.items import Hand
    from inventory.core.packing import PackingLine
    from inventory.core.picking import Fetch
    from inventory.core.plan import Need, Step
    from inventory.core.ready import StepReady
    from inventory.core.shortage import NetNeed
    from inventory.jobs.acts import Bench
    from inventory.store.names import PartName
    from inventory.store.stock import Lying

SHOWN = (PlaceKind.BIN, PlaceKind.CRATE, PlaceKind.HOLD, PlaceKind.STEP, PlaceKind.SCRAP)


@dataclass(frozen=True, slots=True)
class Reserved:
    """Pieces that a step will take in build order."""

    step: str
    hand: Hand
    pieces: int


@dataclass(frozen=True, slots=True)
class Whereabouts:
    """All that is known of one part."""

    part: PartName
    lying: tuple[Lying, ...]
    reserved: tuple[Reserved, ...]
    needs: tuple[Need, ...]
    lines: tuple[PackingLine, ...]


def where(bench: Bench, text: str) -> Whereabouts:
    """Return where a part lies, who will need it, and how it was listed."""
    with bench.store.reading() as db:
        part = known_part(db, bench.kit, text)
        now = today_within(db, bench.kit)
        lines = [line for line in current_lines(db, bench.kit.id) if line.part == part.key]
        there = lying(db, bench.kit.id, kinds=SHOWN, part=part.key)
    reserved = [
        Reserved(net.need.step, share.pool.hand, share.quantity)
        for net in now.netting.needs
        for share in net.filled
        if share.pool.part == part.key
    ]
    needs = tuple(need for need in now.plan.needs if need.part == part.key)
    return Whereabouts(part, tuple(there), tuple(reserved), needs, tuple(lines))


@dataclass(frozen=True, slots=True)
class Shortages:
    """What is short, of one step or of all, and which other steps each part stops."""

    step: Step | None
    short: tuple[NetNeed, ...]
    stops: dict[tuple[str, Hand], tuple[str, ...]]
    """By part and hand: all steps that lack some of it."""


def short(bench: Bench, code: str = "") -> Shortages:
    """Return what is short in build order; of one step where asked."""
    now = today(bench)
    netting = now.netting
    stops: dict[tuple[str, Hand], tuple[str, ...]] = {}
    for net in netting.needs:
        if net.stops:
            key = (net.need.part, net.need.hand)
            stops[key] = (*stops.get(key, ()), net.need.step)
    step = None
    if code:
        known = known_step((each.code for each in now.plan.steps), code)
        step = next(each for each in now.plan.steps if each.code == known)
    lacking = tuple(
        net
        for net in netting.needs
        if (net.stops or net.unprepared) and (step is None or net.need.step == step.code)
    )
    return Shortages(step, lacking, stops)


def step_needs(bench: Bench, code: str) -> tuple[Step, tuple[NetNeed, ...]]:
    """Return a step with all its needs netted in build order."""
    now = today(bench)
    known = known_step((each.code for each in now.plan.steps), code)
    step = next(each for each in now.plan.steps if each.code == known)
    return step, now.netting.of_step(known)


def ready(bench: Bench) -> tuple[StepReady, ...]:
    """Return of every step how far it is, in build order."""
    now = today(bench)
    return steps_ready(now.netting, now.workshop)


@dataclass(frozen=True, slots=True)
class Picking:
    """What to fetch for a step, bin by bin, and what can't be fetched."""

    step: Step
    fetches: tuple[Fetch, ...]
    needs: tuple[NetNeed, ...]


def pick(bench: Bench, code: str) -> Picking:
    """Return what to fetch for a step, in the order of the bins."""
    now = today(bench)
    known = known_step((each.code for each in now.plan.steps), code)
    step = next(each for each in now.plan.steps if each.code == known)
    needs = now.netting.of_step(known)
    in_bins = [
        (lies.place, lies.item, lies.quantity)
        for lies in now.lying
        if lies.place.kind is PlaceKind.BIN
    ]
    return Picking(step, tuple(fetches(needs, in_bins)), needs)
