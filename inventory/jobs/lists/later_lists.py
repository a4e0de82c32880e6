"""A later shipment or back-order slip: which open matters it closes, which steps it frees."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError, NotFoundError
from inventory.core.frozen import frozen
from inventory.core.items import Hand, Item
from inventory.core.measures.lengths import show_length
from inventory.core.parts.lookalikes import match_number
from inventory.core.places import Place, PlaceKind, crate_code
from inventory.core.planning.shortage import net
from inventory.core.receiving.arrivals import Arrival, match_arrivals
from inventory.core.receiving.tally import tally
from inventory.jobs.acts import acting
from inventory.jobs.again import tried_again
from inventory.jobs.planning.workshop_today import today_within
from inventory.jobs.receiving.still_coming import receipt_within
from inventory.store.ledger.stock import lying
from inventory.store.receiving.arrivals import add_arrivals, all_arrivals, all_expected
from inventory.store.receiving.packing_lists import numbered_lines_of, saved_lists

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from inventory.core.planning.shortage import Netting
    from inventory.core.planning.workshop import Workshop
    from inventory.core.receiving.arrivals import ListedLine, Matched
    from inventory.core.receiving.still_to_come import Coming
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench
    from inventory.jobs.planning.workshop_today import Today
    from inventory.store.kits import Kit
    from inventory.store.opening.database import Connection

FARTHEST = 1.0
"""Open numbers that look less alike than this aren't asked about."""


@frozen
class Unmatched:
    """A line, or some pieces of it, that closes nothing open; near open numbers are questions."""

    line: ListedLine
    pieces: int
    near: tuple[str, ...]


@frozen
class Matching:
    """What a later list closes and frees."""

    packing_list: int
    matched: tuple[Matched, ...]
    rest: tuple[Unmatched, ...]
    frees: tuple[str, ...]
    """Steps that are short now and won't be once its pieces lie in bins."""
    helps: tuple[str, ...]
    """Steps that stay short, yet of less."""


def match_list(bench: Bench, number: int) -> Matching:
    """Return what a list would close and free; records nothing."""
    with bench.store.reading() as db:
        return _matching(db, bench.kit, number)


@tried_again
def record_match(bench: Bench, number: int, slip: Slip) -> Matching:
    """Record which open matters the pieces of a list close."""
    with acting(bench, "delivery match", slip) as act:
        found = _matching(act.db, bench.kit, number)
        if not found.matched:
            raise InventoryError(
                f"list {number} closes nothing that is open",
                remedy="Look what is: kitwright claims due",
            )
        arrivals = [
            Arrival(
                slip=act.recorded.id,
                line=each.line.id,
                closes=each.coming.line,
                expected=each.coming.expected,
                pieces=each.pieces,
                wanted=each.line.wanted,
            )
            for each in found.matched
        ]
        add_arrivals(act.db, bench.kit.id, act.recorded.id, arrivals)
        return found


def _matching(db: Connection, kit: Kit, number: int) -> Matching:
    if number not in {saved.id for saved in saved_lists(db, kit.id)}:
        raise NotFoundError(
            f"there is no packing list {number}", remedy="Look: kitwright packing-list show"
        )
    lines = _not_matched_yet(db, kit, number)
    coming = _open_elsewhere(db, kit, number)
    matched, rest = match_arrivals(lines, coming)
    before = today_within(db, kit)
    after = net(before.plan, _with(before, _not_in_bins(db, kit, lines)))
    frees, helps = _freed(before.netting, after)
    return Matching(
        number,
        tuple(matched),
        tuple(Unmatched(line, pieces, _near(line, coming)) for line, pieces in rest),
        frees,
        helps,
    )


def _open_elsewhere(db: Connection, kit: Kit, number: int) -> list[Coming]:
    """Return what is to come, but for what a list itself holds open: it can't bring that."""
    own = {each.id for each in numbered_lines_of(db, kit.id, number)}
    of_own = {each.id for each in all_expected(db, kit.id) if each.packing_list == number}
    return [
        each
        for each in receipt_within(db, kit).coming
        if each.line not in own and each.expected not in of_own
    ]


def _not_matched_yet(db: Connection, kit: Kit, number: int) -> list[ListedLine]:
    done: Counter[int] = Counter()
    for arrival in all_arrivals(db, kit.id):
        done[arrival.line] += arrival.pieces
    left = [
        replace(each, line=replace(each.line, shipped=each.line.shipped - done[each.id]))
        for each in numbered_lines_of(db, kit.id, number)
    ]
    return [each for each in left if each.line.shipped > 0]


def _near(each: ListedLine, coming: Iterable[Coming]) -> tuple[str, ...]:
    """Return open numbers to ask about; the same number is open in another hand or length only."""
    others = [one for one in coming if one.wanted != each.wanted]
    same = [_named(one) for one in others if one.wanted.part == each.wanted.part]
    numbers = list(dict.fromkeys(one.printed for one in others))
    near = match_number(each.line.printed, numbers).near
    alike = (one.number for one in near if 0 < one.distance <= FARTHEST)
    return tuple(dict.fromkeys((*same, *alike)))


def _named(one: Coming) -> str:
    """Return an open part with what tells it from others of its number."""
    hand = "" if one.wanted.hand is Hand.NONE else one.wanted.hand.upper()
    length = show_length(one.wanted.length) if one.wanted.length else ""
    return " ".join(word for word in (one.printed, hand, length) if word)


def _not_in_bins(db: Connection, kit: Kit, lines: Sequence[ListedLine]) -> Counter[Item]:
    """Return what of the lines nobody counted yet, or counted and left in its crate."""
    counts = [each.count for each in receipt_within(db, kit).counts]
    found: Counter[Item] = Counter()
    for one in tally([each.line for each in lines], counts).lines:
        line = one.line
        item = Item(line.part, line.hand, "", line.length)
        crate = Place(PlaceKind.CRATE, crate_code(line.crate, line.bag))
        found[item] += max(0, line.shipped - one.pieces_received)
        found[item] += sum(
            lies.quantity
            for lies in lying(db, kit.id, place=crate, part=line.part)
            if lies.item.hand is line.hand
        )
    return found


def _with(now: Today, pieces: Counter[Item]) -> Workshop:
    usable = Counter(now.workshop.usable)
    usable.update(pieces)
    return replace(now.workshop, usable=usable)


def _freed(before: Netting, after: Netting) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return the steps that are no longer short, and those that are short of less."""
    short, still = _short_by_step(before), _short_by_step(after)
    frees = [step for step in short if step not in still]
    helps = [step for step, lacking in short.items() if 0 < still.get(step, 0) < lacking]
    return tuple(frees), tuple(helps)


def _short_by_step(netting: Netting) -> dict[str, int]:
    short: Counter[str] = Counter()
    for each in netting.needs:
        if each.stops:
            short[each.need.step] += max(each.short, 1)
    return dict(short)
