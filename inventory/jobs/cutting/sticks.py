"""Which piece comes from which stick: planned from what lies in the bins and what can be bought."""

from __future__ import annotations

from collections import Counter, defaultdict
from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

from inventory.core.cutting.job import CutJob, CutPiece, CutPlan, CutStock, Owned
from inventory.core.frozen import frozen
from inventory.core.items import Hand, Item, State, fits
from inventory.core.measures.lengths import show_length
from inventory.core.places import Place, PlaceKind
from inventory.core.planning.open_needs import Pool
from inventory.core.planning.plan import NeedKind
from inventory.jobs.bench.finding_items import known_part
from inventory.jobs.cutting.saw import saw_within
from inventory.jobs.planning.workshop_today import today_within
from inventory.store.ledger.history import items_out_of
from inventory.store.ledger.names import known_lengths
from inventory.store.planning.offers import offers_that_count

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from inventory.core.cutting.job import CutStick
    from inventory.core.planning.plan import Need
    from inventory.core.planning.shortage import NetNeed
    from inventory.jobs.acts import Bench
    from inventory.jobs.cutting.saw import OwnSaw
    from inventory.jobs.planning.workshop_today import Today
    from inventory.store.planning.offers import Offer

SAW = Place(PlaceKind.SAW)
_UNNAMED = CutPlan(sticks=(), cost=0, bound=0)


class Lacking(NamedTuple):
    """A need, and how many of its pieces are still to be cut."""

    net: NetNeed
    pieces: int


@frozen
class PlannedStick:
    """One stick and how it is cut; it lies in a bin, or is to be bought."""

    stick: CutStick
    place: Place | None = None
    item: Item | None = None


@frozen
class StickFromBin:
    """One stick with the bin it lies in, and how it is cut."""

    place: Place
    item: Item
    stick: CutStick


@frozen(kw_only=True)
class ProfilePlan:
    """The cutting plan of one stock part."""

    part: str
    hand: Hand
    printed: str
    description: str
    own: OwnSaw
    plan: CutPlan
    sticks: tuple[PlannedStick, ...]
    too_long: tuple[CutPiece, ...] = ()
    """Pieces that are longer than any stick; the plan is without them."""
    longest: int = 0
    """Nanometres of the longest stick that lies there or can be bought; 0 where there is none."""
    by_price: bool = False
    """Whether the plan's cost is money, in millionths; else it is the length bought."""
    currency: str = ""
    """The money's, where the prices say it."""
    needs: Mapping[str, Need]
    """The need of each piece, by the piece's name."""
    also: tuple[str, ...] = ()
    """Other open steps that want pieces of this stock; the plan doesn't look at them."""

    @property
    def uncut(self) -> tuple[CutPiece, ...]:
        """All pieces that don't come out of this stock."""
        return (*self.too_long, *self.plan.uncut)


ANY_PART = ""
"""Stands for every part in a table of what can be bought."""


def cut_plans(
    bench: Bench, codes: Sequence[str], to_buy: Mapping[str, Sequence[CutStock]]
) -> list[ProfilePlan]:
    """Return a plan for each stock part that the steps want pieces of; all open steps if none.

    Pieces that were cut before and lie in a bin, or were issued, aren't cut again. Sticks set
    aside for other steps, and lengths that some step takes as they are, aren't cut up. `to_buy`
    are the lengths that are sold, by part; of others those that are on offer, else those that a
    packing list ever named.
    """
    with bench.store.reading() as db:
        now = today_within(db, bench.kit)
        from_saw = items_out_of(db, bench.kit.id, SAW)
        own = saw_within(db)
        offers = offers_that_count(db, bench.kit.id)
        sold = {
            part: _offered(offers, part)
            or [CutStock(length=each) for each in sorted(known_lengths(db, bench.kit.id, part))]
            for part in {need.part for need in _cut(now)}
        }
    steps = {now.step(code).code for code in codes} or {step.code for step in now.plan.steps}
    every = [Lacking(net, _uncut(net)) for net in now.netting.needs]
    others = _by_profile(each for each in every if each.net.need.step not in steps)
    rack = _Rack(now, steps, from_saw)
    return [
        replace(
            _profile(
                of_part,
                rack.stock(part, hand),
                own,
                to_buy.get(part) or to_buy.get(ANY_PART) or sold[part],
            ),
            also=tuple(dict.fromkeys(each.net.need.step for each in others.get((part, hand), ()))),
        )
        for (part, hand), of_part in _by_profile(
            each for each in every if each.net.need.step in steps
        ).items()
    ]


def _offered(offers: Iterable[Offer], part: str) -> list[CutStock]:
    """Return the lengths on offer, each at its best price; prices of one currency only count."""
    of_part = [each for each in offers if each.part == part and each.length]
    currencies = {each.price.currency for each in of_part if each.price}
    comparable = len(currencies) == 1
    currency = currencies.pop() if comparable else ""
    cheapest: dict[int, int | None] = {}
    for each in of_part:
        price = each.price.amount if each.price and comparable else None
        known = cheapest.get(each.length)
        cheapest[each.length] = price if known is None else min(known, price or known)
    return [
        CutStock(length=length, price=price, currency=currency)
        for length, price in sorted(cheapest.items())
    ]


def _cut(now: Today) -> Iterator[Need]:
    return (need for need in now.plan.needs if need.kind is NeedKind.CUT)


def _by_profile(lacking: Iterable[Lacking]) -> dict[tuple[str, Hand], list[Lacking]]:
    profiles: defaultdict[tuple[str, Hand], list[Lacking]] = defaultdict(list)
    for each in lacking:
        need = each.net.need
        if need.kind is NeedKind.CUT and each.net.chosen and each.pieces > 0:
            profiles[need.part, need.hand].append(each)
    return dict(profiles)


def _uncut(net: NetNeed) -> int:
    return net.open - sum(share.quantity for share in net.filled)


class _Rack:
    """Sticks in the bins that may be cut for some steps; none is given out twice."""

    def __init__(self, now: Today, steps: set[str], from_saw: set[Item]) -> None:
        self._from_saw = from_saw
        spoken_for = _spoken_for(now, steps)
        self._lying: list[tuple[Place, Item, int]] = []
        for place, item, quantity in sorted(now.in_bins()):
            pool = Pool(item.part, item.hand, item.length)
            kept = min(quantity, spoken_for[pool])
            spoken_for[pool] -= kept
            if item.length and item.state is State.NEW and quantity > kept:
                self._lying.append((place, item, quantity - kept))

    def stock(self, part: str, hand: Hand) -> dict[CutStock, tuple[Place, Item]]:
        """Return the sticks of a part that pieces of this hand may come from, and take them."""
        taken = [each for each in self._lying if each[1].part == part and fits(hand, each[1].hand)]
        self._lying = [each for each in self._lying if each not in taken]
        return {
            CutStock(
                length=item.length,
                quantity=quantity,
                owned=Owned.REMNANT if item in self._from_saw else Owned.BAR,
                name=f"{place.code} {number}",
            ): (place, item)
            for number, (place, item, quantity) in enumerate(taken)
        }


def _spoken_for(now: Today, steps: set[str]) -> Counter[Pool]:
    """Return what isn't to be cut up: whole lengths that steps take, sticks kept for others."""
    taken = Counter[Pool]()
    for net in now.netting.needs:
        for pool, quantity in net.filled:
            if pool.length and (not pool.kept_for or pool.kept_for in steps):
                taken[pool._replace(kept_for="")] += quantity
    for kept in now.workshop.set_aside:
        if kept.step not in steps:
            taken[Pool(kept.item.part, kept.item.hand, kept.item.length)] += kept.quantity
    return taken


def _profile(
    lacking: Sequence[Lacking],
    owned: Mapping[CutStock, tuple[Place, Item]],
    own: OwnSaw,
    to_buy: Sequence[CutStock],
) -> ProfilePlan:
    from inventory.core.cutting.plan import cut_plan

    needs = {_name(each.net.need): each.net.need for each in lacking}
    pieces = [CutPiece(each.net.need.length, each.pieces, _name(each.net.need)) for each in lacking]
    longest = max((stock.length for stock in (*owned, *to_buy)), default=0)
    cut = tuple(piece for piece in pieces if piece.length <= longest - own.saw.trim)
    job = CutJob(pieces=cut, stock=(*owned, *to_buy), saw=own.saw, least_remnant=own.least_remnant)
    plan = cut_plan(job) if cut else _UNNAMED
    first = lacking[0].net.need
    return ProfilePlan(
        part=first.part,
        hand=first.hand,
        printed=first.printed or first.part,
        description=next(
            (each.net.need.description for each in lacking if each.net.need.description), ""
        ),
        own=own,
        plan=plan,
        sticks=tuple(
            PlannedStick(stick, *owned.get(stick.stock, (None, None))) for stick in plan.sticks
        ),
        too_long=tuple(piece for piece in pieces if piece not in cut),
        longest=longest,
        by_price=job.by_price,
        currency=next((each.currency for each in to_buy if each.currency), ""),
        needs=needs,
    )


def _name(need: Need) -> str:
    """Return what a piece is told by: its step, its place on the plans, its length."""
    words = (need.step, need.sheet, need.find_number, show_length(need.length))
    return " ".join(word for word in words if word)


@frozen
class RackStick:
    """Sticks of one length in a bin, and who is going to cut them up."""

    place: Place
    item: Item
    quantity: int
    remnant: bool
    """Whether they are rests of earlier cuts."""
    promised: tuple[tuple[Need, int], ...]
    """Needs that get pieces out of sticks of this length, in build order, and how many."""


def rack(bench: Bench, text: str, least: int = 0) -> list[RackStick]:
    """Return the sticks of a part that are at least so long, the shortest first."""
    with bench.store.reading() as db:
        part = known_part(db, bench.kit, text)
        now = today_within(db, bench.kit)
        from_saw = items_out_of(db, bench.kit.id, SAW)
    promised: defaultdict[tuple[Hand, int], list[tuple[Need, int]]] = defaultdict(list)
    for net in now.netting.needs:
        for pool, pieces in (*net.to_cut, *net.filled):
            if pool.part == part.key:
                promised[pool.hand, pool.length].append((net.need, pieces))
    return [
        RackStick(place, item, quantity, item in from_saw, tuple(promised[item.hand, item.length]))
        for place, item, quantity in sorted(now.in_bins(), key=lambda row: row[1].length)
        if item.part == part.key and item.length >= max(1, least) and item.state is State.NEW
    ]


def sticks_for(
    now: Today, step: str, lacking: Iterable[Lacking], from_saw: set[Item], own: OwnSaw
) -> Iterator[StickFromBin]:
    """Yield how the pieces that a step still wants cut come out of the sticks in the bins."""
    rack = _Rack(now, {step}, from_saw)
    for (part, hand), of_part in _by_profile(lacking).items():
        for each in _profile(of_part, rack.stock(part, hand), own, ()).sticks:
            if each.stick.pieces and each.place is not None and each.item is not None:
                yield StickFromBin(each.place, each.item, each.stick)
