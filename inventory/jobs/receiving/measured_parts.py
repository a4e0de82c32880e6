"""An unmarked part told by its measures: candidates, one person's word, a second one's."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError, NotFoundError
from inventory.core.frozen import frozen
from inventory.core.items import Hand, part_key
from inventory.core.measures.lengths import parse_length
from inventory.core.parts.hands import hand_in_words
from inventory.core.parts.hardware import is_hardware
from inventory.core.parts.measuring import Dimension, Measured, SizedPart, rank
from inventory.core.parts.measuring_questions import questions
from inventory.core.receiving.counts import Count, Remark
from inventory.core.receiving.tally import tally
from inventory.jobs.acts import acting
from inventory.jobs.again import tried_again
from inventory.jobs.receiving.receiving import count_within, known_crate
from inventory.jobs.receiving.still_coming import receipt_within
from inventory.store.ledger.names import known_hands
from inventory.store.planning.plans import current_plan
from inventory.store.receiving.counts import RecordedCount
from inventory.store.receiving.identifications import (
    WAITING,
    Identification,
    add_identification,
    add_verdict,
    identifications,
)

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from inventory.core.parts.measuring import Candidate, Ranking
    from inventory.core.planning.plan import PartSize
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench
    from inventory.jobs.bench.finding_items import Asked
    from inventory.store.kits import Kit
    from inventory.store.opening.database import Connection

__all__ = [
    "Candidates",
    "Held",
    "Identification",
    "candidates",
    "hold_for",
    "measured_typed",
    "settle",
    "waiting",
]

_MILLION = 10**6


@frozen
class Candidates:
    """What the measures leave open, and what to ask or measure next."""

    measured: Measured
    ranking: Ranking
    questions: tuple[str, ...]


@frozen(kw_only=True)
class Held:
    """What one person says: these pieces, measured so, are that part."""

    asked: Asked
    measured: Measured
    crate: str
    bag: str = ""
    pieces: int = 1


def measured_typed(typed: Mapping[Dimension, str], holes: int | None) -> Measured:
    """Return the measures that were typed, each length with its unit; an empty one wasn't taken."""
    sizes = {dimension: parse_length(text) for dimension, text in typed.items() if text}
    if holes is not None and holes < 0:
        raise InventoryError(f"{holes} holes can't be", remedy="Count them, or leave --holes out.")
    if not sizes and holes is None:
        raise InventoryError(
            "a number or some measures are needed",
            remedy="For instance: kitwright identify AN3-5A, or --thickness .032in --length 10in.",
        )
    return Measured(sizes=sizes, holes=holes)


def candidates(bench: Bench, measured: Measured, hand: Hand | None = None) -> Candidates:
    """Return the open parts that an unmarked one may be, the most likely first; only questions."""
    with bench.store.reading() as db:
        ranking = rank(measured, _open_parts(db, bench.kit, hand))
        asked = [*_other_hand(db, bench.kit, ranking, hand), *questions(measured, ranking)]
    return Candidates(measured, ranking, tuple(asked))


def _other_hand(db: Connection, kit: Kit, ranking: Ranking, hand: Hand | None) -> Iterator[str]:
    """Ask for the hand where only one of a pair is still to be found: it may be one too many."""
    first = next((each for each in ranking.candidates if each.fits), None)
    if first is None or hand is not None:
        return
    open_hands = {each.hand for each in ranking.candidates if each.part == first.part}
    if len(open_hands) == 1 and len(known_hands(db, kit.id, first.part)) > 1:
        told = hand_in_words(first.hand)
        yield f"which hand is it? {first.part} is listed in both; only {told} is to be found"


def _open_parts(db: Connection, kit: Kit, hand: Hand | None) -> Iterator[SizedPart]:
    """Give every part of which pieces are still to be found, with the sizes of the plans."""
    receipt = receipt_within(db, kit)
    open_pieces: Counter[tuple[str, Hand]] = Counter()
    lines = [each.line for each in receipt.lines]
    for one in tally(lines, [each.count for each in receipt.counts]).lines:
        line = one.line
        if not line.length and not is_hardware(line.part):
            open_pieces[line.part, line.hand] += max(0, line.shipped - one.pieces_received)
    sizes = _by_part(current_plan(db, kit.id).sizes)
    for (part, of_hand), pieces in open_pieces.items():
        if pieces and hand in (None, of_hand):
            yield _sized(part, of_hand, pieces, sizes.get(part, {}))


def _by_part(sizes: Iterable[PartSize]) -> dict[str, dict[Hand, PartSize]]:
    by_part: dict[str, dict[Hand, PartSize]] = {}
    for size in sizes:
        by_part.setdefault(size.part, {})[size.hand] = size
    return by_part


def _sized(part: str, hand: Hand, pieces: int, sizes: dict[Hand, PartSize]) -> SizedPart:
    """Return a part with its sizes; those of its mirror where only they are on the plans."""
    size = sizes.get(hand) or next(iter(sizes.values()), None)
    known = {
        Dimension.THICKNESS: size.thickness,
        Dimension.WIDTH: size.width,
        Dimension.LENGTH: size.length,
    } if size else {}  # fmt: skip
    return SizedPart(
        part=part,
        hand=hand,
        pieces_open=pieces,
        sizes={dimension: length for dimension, length in known.items() if length},
        holes=size.holes if size else None,
    )


@tried_again
def hold_for(bench: Bench, held: Held, slip: Slip) -> Identification:
    """Record that one person holds unmarked pieces for a part; nothing is counted yet."""
    if not slip.person:
        raise InventoryError("who says so?", remedy="Say it with --by: a second person confirms.")
    with acting(bench, "identify", slip) as act:
        open_parts = list(_open_parts(act.db, bench.kit, held.asked.hand))
        _ask_hand(act.db, bench.kit, held.asked)
        chosen = _chosen(held, rank(held.measured, open_parts))
        _check_pieces(held, open_parts, chosen)
        crate = known_crate(act.db, bench.kit, held.crate)
        found = Identification(
            crate=crate,
            bag=" ".join(held.bag.upper().split()),
            part=chosen.part,
            hand=chosen.hand,
            pieces=held.pieces,
            sizes=held.measured.sizes,
            holes=held.measured.holes,
            tail=round(chosen.gate * _MILLION),
            by=slip.person,
        )
        number = add_identification(act.db, bench.kit.id, act.recorded.id, found)
        return replace(found, number=number)


def _ask_hand(db: Connection, kit: Kit, asked: Asked) -> None:
    """Ask for the hand of a part that is listed in both, even where one hand is all found."""
    hands = known_hands(db, kit.id, part_key(asked.part))
    if asked.hand is None and len(hands) > 1:
        words = " or ".join(sorted(map(hand_in_words, hands)))
        raise InventoryError(
            f"is it {words}? No measure tells",
            remedy="Hold it against the drawing, then say --hand.",
        )


def _check_pieces(held: Held, open_parts: Iterable[SizedPart], chosen: Candidate) -> None:
    open_pieces = sum(
        each.pieces_open
        for each in open_parts
        if (each.part, each.hand) == (chosen.part, chosen.hand)
    )
    if not 1 <= held.pieces <= open_pieces:
        raise InventoryError(
            f"{held.pieces} pieces of {open_pieces} still to be found can't be",
            remedy="Say --pieces; count what is over with `kitwright crate count`.",
        )


def _chosen(held: Held, ranking: Ranking) -> Candidate:
    key = part_key(held.asked.part)
    found = [each for each in ranking.candidates if each.part == key]
    if not found:
        raise NotFoundError(
            f"{key} is no candidate: "
            + ("no sizes of it are recorded" if key in ranking.unsized else "none of it is open"),
            remedy="Sizes come from the plan sheet's columns: thickness, width, length, holes.",
        )
    if not found[0].fits:
        raise InventoryError(
            f"the measures are too far off for {key}", remedy="Measure again, or look further."
        )
    return found[0]


@tried_again
def settle(bench: Bench, number: int, slip: Slip, *, confirmed: bool) -> Identification:
    """Record a second person's word; what is confirmed is counted as identified by measurement."""
    event = "confirmed" if confirmed else "refused"
    with acting(bench, f"identify {event}", slip) as act:
        found = _waiting(act.db, bench.kit, number)
        if not slip.person or slip.person.casefold() == found.by.casefold():
            raise InventoryError(
                f"{found.by} said so; a second person has to look",
                remedy="That person says --by with their own name.",
            )
        add_verdict(act.db, bench.kit.id, act.recorded.id, number, event)
        if confirmed:
            count_within(act, [_as_count(found, slip)], more=True)
        return replace(found, state=event)


def _as_count(found: Identification, slip: Slip) -> RecordedCount:
    counted = Count(
        part=found.part,
        hand=found.hand,
        crate=found.crate,
        bag=found.bag,
        pieces_good=found.pieces,
        remarks=frozenset({Remark.UNMARKED, Remark.MEASURED}),
        by=f"{found.by}, {slip.person}",
    )
    note = f"identification {found.number}"
    return RecordedCount(0, 0, counted, found.part, recount=False, note=note)


def _waiting(db: Connection, kit: Kit, number: int) -> Identification:
    for each in identifications(db, kit.id):
        if each.number == number:
            if each.state != WAITING:
                raise InventoryError(f"identification {number} was {each.state} before")
            return each
    raise NotFoundError(
        f"there is no identification {number}", remedy="Look: kitwright identify --waiting"
    )


def waiting(bench: Bench) -> list[Identification]:
    """Return what waits for a second person."""
    with bench.store.reading() as db:
        return [each for each in identifications(db, bench.kit.id) if each.state == WAITING]
