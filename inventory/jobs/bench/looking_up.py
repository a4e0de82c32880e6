"""Looking things up: where a part is, which steps use it, what a step waits for."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.items import Hand, State
from inventory.core.places import PlaceKind
from inventory.core.planning.lying_aside import lying_aside
from inventory.core.planning.picking import fetches, missing_from
from inventory.core.planning.ready import steps_ready
from inventory.core.planning.revisions import asked_revisions, other_revisions
from inventory.core.planning.shortage import steps_stopped
from inventory.jobs.bench.finding_items import known_part
from inventory.jobs.planning.planning import known_step
from inventory.jobs.planning.workshop_today import (
    scarce_within,
    today,
    today_within,
    workshop_within,
)
from inventory.store.ledger.names import all_parts, places_of
from inventory.store.ledger.stock import lying
from inventory.store.planning.plans import step_codes
from inventory.store.planning.scarce import moment
from inventory.store.planning.short_parts import short_of_step, short_parts
from inventory.store.receiving.counts import all_counts
from inventory.store.receiving.packing_lists import current_lines

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from inventory.core.lists.packing import PackingLine
    from inventory.core.places import Place
    from inventory.core.planning.lying_aside import LyingAside
    from inventory.core.planning.picking import Fetch
    from inventory.core.planning.plan import Need, Step
    from inventory.core.planning.ready import StepReady
    from inventory.core.planning.shortage import NetNeed, Netting
    from inventory.core.planning.workshop import Workshop
    from inventory.core.receiving.counts import Count
    from inventory.jobs.acts import Bench
    from inventory.store.ledger.names import PartName
    from inventory.store.ledger.stock import Lying
    from inventory.store.planning.short_parts import ShortPart

SHOWN = (PlaceKind.BIN, PlaceKind.CRATE, PlaceKind.HOLD, PlaceKind.STEP, PlaceKind.SCRAP)


@frozen
class Reserved:
    """What a step asks for of a part, and what it will get in build order."""

    need: Need
    pieces: int
    """Set aside for it; 0 for a step that is done."""


@frozen
class Whereabouts:
    """All that is known of one part."""

    part: PartName
    lying: tuple[Lying, ...]
    in_bins: Mapping[Hand, int]
    """New pieces in all bins together, hand by hand; 0 of a hand that only steps ask for."""
    steps: tuple[Reserved, ...]
    lines: tuple[PackingLine, ...]
    came: tuple[Count, ...]
    """How it was counted, with the revision that was marked on it."""
    asked: Mapping[str, tuple[str, ...]]
    """The revisions that the plan asks for, each with its steps."""

    @property
    def other_revisions(self) -> tuple[str, ...]:
        """Revisions listed or counted that the plan doesn't ask for."""
        there = (*(line.revision for line in self.lines), *(one.revision for one in self.came))
        return other_revisions(self.asked, there)


def where(bench: Bench, text: str) -> Whereabouts:
    """Return where a part lies, who will need it, and how it was listed."""
    with bench.store.reading() as db:
        part = known_part(db, bench.kit, text)
        now = today_within(db, bench.kit)
        lines = [line for line in current_lines(db, bench.kit.id) if line.part == part.key]
        there = lying(db, bench.kit.id, kinds=SHOWN, part=part.key)
        counts = [each.count for each in all_counts(db, bench.kit.id)]
    taken = {
        id(net.need): sum(share.quantity for share in (*net.filled, *net.to_cut))
        for net in now.netting.needs
    }
    steps = [
        Reserved(need, taken.get(id(need), 0)) for need in now.plan.needs if need.part == part.key
    ]
    return Whereabouts(
        part=part,
        lying=tuple(there),
        in_bins=_in_bins(there, steps),
        steps=tuple(steps),
        lines=tuple(lines),
        came=tuple(one for one in counts if one.part == part.key),
        asked=asked_revisions(each.need for each in steps),
    )


def _in_bins(there: Iterable[Lying], steps: Iterable[Reserved]) -> dict[Hand, int]:
    hands = (each.need.hand for each in steps)
    found: dict[Hand, int] = {hand: 0 for hand in hands if hand is not Hand.EITHER}
    for each in there:
        if each.place.kind is PlaceKind.BIN and each.item.state is State.NEW:
            found[each.item.hand] = found.get(each.item.hand, 0) + each.quantity
    return dict(sorted(found.items()))


@frozen
class Shortages:
    """What is short, of one step or of all."""

    step: Step | None
    short: tuple[NetNeed, ...]
    netting: Netting
    workshop: Workshop
    planned: bool
    """Whether there is a plan at all; without one nothing can be said to be short or not."""

    def taken_by(self, net: NetNeed) -> list[tuple[str, int]]:
        """Return which other steps get pieces that this need could use, and how many."""
        taken: Counter[str] = Counter()
        for other in self.netting.needs:
            if other.need.step != net.need.step:
                for share in (*other.filled, *other.to_cut):
                    if share.pool in net.pools:
                        taken[other.need.step] += share.quantity
        return list(taken.items())

    def stops_of(self, net: NetNeed) -> list[str]:
        """Return the steps that lack the same part of the same hand."""
        key = (net.need.part, net.need.hand)
        return list(
            dict.fromkeys(
                other.need.step
                for other in self.netting.needs
                if other.stops and (other.need.part, other.need.hand) == key
            )
        )

    def stopped_by(self, net: NetNeed) -> tuple[str, ...]:
        """Return the steps that can't be done while this is short, those after them too."""
        return steps_stopped(self.netting, net)

    def aside(self, net: NetNeed) -> tuple[LyingAside, ...]:
        """Return pieces that lie there and yet don't count: on hold, in a crate, worked, ..."""
        return lying_aside(net, self.workshop)


def short(bench: Bench, code: str = "") -> Shortages:
    """Return what is short in build order; of one step where asked."""
    with bench.store.reading() as db:
        wanted = known_step(step_codes(db, bench.kit.id), code) if code else ""
        now = scarce_within(db, bench.kit, wanted)
    netting = now.netting
    step = now.step(wanted) if wanted else None
    lacking = tuple(
        net
        for net in netting.needs
        if (net.stops or net.unprepared) and (step is None or net.need.step == step.code)
    )
    return Shortages(step, lacking, netting, now.workshop, planned=bool(now.plan.steps))


def short_by_part(bench: Bench, code: str = "") -> list[tuple[ShortPart, PartName]]:
    """Return who is short, how many, and which step first; of one step where asked."""
    with bench.store.reading() as db:
        wanted = known_step(step_codes(db, bench.kit.id), code) if code else ""
        at = moment(db, bench.kit.id, workshop_within(db, bench.kit))
        if at is None:
            return []
        found = short_of_step(db, at, wanted) if wanted else short_parts(db, at)
        names = all_parts(db, bench.kit.id)
    return [(each, names[each.part]) for each in found]


def step_needs(bench: Bench, code: str) -> tuple[Step, tuple[NetNeed, ...]]:
    """Return a step with all its needs netted in build order."""
    now = today(bench)
    step = now.step(code)
    return step, now.netting.of_step(step.code)


def ready(bench: Bench) -> tuple[StepReady, ...]:
    """Return of every step how far it is, in build order."""
    now = today(bench)
    return steps_ready(now.netting, now.workshop)


@frozen
class Picking:
    """What to fetch for a step, bin by bin, and what can't be fetched."""

    step: Step
    fetches: tuple[Fetch, ...]
    missing: tuple[tuple[NetNeed, int], ...]
    """Needs, and how much of each lies in no bin."""


def pick(bench: Bench, code: str) -> Picking:
    """Return what to fetch for a step, in the order of the bins."""
    now = today(bench)
    step = now.step(code)
    needs = now.netting.of_step(step.code)
    taken = fetches(needs, now.for_step(step.code), now.last_use)
    return Picking(step, tuple(taken), tuple(missing_from(needs, taken)))


@frozen
class StockRow:
    """One place with its shelf and all that lies in it."""

    place: Place
    shelf: str
    lying: tuple[Lying, ...]
    parts: Mapping[str, PartName]
    """The words of every part, by its key."""


def stock(bench: Bench) -> list[StockRow]:
    """Return all bins, and every crate and hold place in which something lies."""
    with bench.store.reading() as db:
        there = lying(db, bench.kit.id, kinds=(PlaceKind.BIN, PlaceKind.CRATE, PlaceKind.HOLD))
        bins = places_of(db, bench.kit.id, PlaceKind.BIN)
        parts = all_parts(db, bench.kit.id)
    places = dict.fromkeys([*bins, *(lies.place for lies in there)])
    return [
        StockRow(
            place,
            bins.get(place, ""),
            tuple(lies for lies in there if lies.place == place and lies.quantity > 0),
            parts,
        )
        for place in places
    ]
