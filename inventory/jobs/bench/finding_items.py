"""From what a person types to the one item that is meant; what is unclear is asked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError, NotEnoughError, NotFoundError
from inventory.core.frozen import frozen
from inventory.core.items import Hand, Item, Measure, State, part_key
from inventory.core.measures.amounts import measured
from inventory.core.measures.lengths import show_length
from inventory.store.ledger.names import all_parts, find_part, known_hands, known_lengths
from inventory.store.ledger.stock import Lying, lying

if TYPE_CHECKING:
    from collections.abc import Sequence

    from inventory.core.places import Place
    from inventory.store.kits import Kit
    from inventory.store.ledger.names import PartName
    from inventory.store.opening.database import Connection


MOST_NEAR = 3
FARTHEST = 2.0
"""Numbers that look less alike than this aren't asked about."""


class SeveralKindsError(InventoryError):
    """Several items of one number lie there: hand, lot or length decides."""


class LooksAlikeError(NotFoundError):
    """A number that nobody knows looks like a known one: a slip of the keyboard, or a new part."""


@frozen(kw_only=True)
class Asked:
    """A part as a person or a scan names it; what isn't said is None."""

    part: str
    hand: Hand | None = None
    lot: str | None = None
    length: int | None = None
    """Nanometres."""
    state: State | None = None
    new: bool = False
    """The person says that this number isn't a slip of the keyboard, although nobody knows it."""

    def agrees(self, item: Item) -> bool:
        """Say whether nothing that was said speaks against the item."""
        return (
            item.part == part_key(self.part)
            and self.hand in (None, item.hand)
            and self.lot in (None, item.lot)
            and self.length in (None, item.length)
            and self.state in (None, item.state)
        )


@frozen
class Taking:
    """Pieces to take from a place, as a person or a scan says it."""

    asked: Asked
    pieces: int
    origin: Place


def known_part(db: Connection, kit: Kit, text: str) -> PartName:
    """Return the part with exactly this number; near ones are named as questions only."""
    if not part_key(text):
        raise NotFoundError("no part number is given", remedy="Type it as printed on the part.")
    found = find_part(db, kit.id, part_key(text))
    if found is not None:
        return found
    near = _near(db, kit, text)
    raise NotFoundError(
        f"no part {part_key(text)} is known in this kit",
        remedy=f"Did you mean {' or '.join(near)}? Compare it with the part and type it in full."
        if near
        else "Compare the number with the part and the packing list.",
    )


def _near(db: Connection, kit: Kit, text: str) -> list[str]:
    from inventory.core.parts.lookalikes import match_number  # most parts are found

    numbers = [part.printed for part in all_parts(db, kit.id).values()]
    return [
        each.number
        for each in match_number(text, numbers, MOST_NEAR).near
        if each.distance <= FARTHEST
    ]


def new_part(db: Connection, kit: Kit, asked: Asked) -> Item:
    """Return the item that is bought, made or found: a number like a known one is asked about."""
    key = part_key(asked.part)
    near = [] if asked.new or find_part(db, kit.id, key) else _near(db, kit, asked.part)
    if near:
        raise LooksAlikeError(
            f"no part {key} is known, and it looks like {' or '.join(near)}",
            remedy="Type it anew, or say --new-part if it is another part.",
        )
    return item_from_outside(db, kit, asked)


def refuse_mixed_up(db: Connection, kit: Kit, text: str) -> None:
    """Refuse a number nobody knows that is a known one but for signs that are easily mixed up.

    Milder than `new_part`, for many rows at once: O and 0, I and 1, separators, leading zeros.
    """
    from inventory.core.parts.lookalikes import loose_key, match_number

    key = part_key(text)
    if find_part(db, kit.id, key) is not None:
        return
    numbers = [part.printed for part in all_parts(db, kit.id).values()]
    alike = [
        each.number
        for each in match_number(text, numbers, MOST_NEAR).near
        if each.distance < 1 or loose_key(part_key(each.number)) == loose_key(key)
    ]
    if alike:
        raise NotFoundError(
            f"no part {key} is known, and it looks like {' or '.join(alike)}",
            remedy="Write the number as it is on the part, or say --new-part if all of these are "
            "other parts.",
        )


def item_lying(
    db: Connection, kit: Kit, asked: Asked, place: Place, here: Sequence[Lying] | None = None
) -> Lying:
    """Return the one item in a place that is meant; several or none are refused with words.

    `here` is what lies there of the part, where it was read already.
    """
    if here is None:
        here = lying(db, kit.id, place=place, part=part_key(asked.part))
    found = [lies for lies in here if asked.agrees(lies.item) and lies.quantity > 0]
    if len(found) == 1:
        return found[0]
    part = known_part(db, kit, asked.part)
    if found:
        raise SeveralKindsError(
            f"{place} holds several kinds of {part.printed}: {_kinds(found, part.measure)}",
            where=str(place),
            remedy="Say which one with --hand, --lot, --length or --worked.",
        )
    raise NotEnoughError(
        f"{_said(asked, part.printed)} doesn't lie in {place}",
        where=str(place),
        remedy=_elsewhere(lying(db, kit.id, part=part.key), here, part.measure),
    )


def enough_lying(
    db: Connection, kit: Kit, taking: Taking, here: Sequence[Lying] | None = None
) -> Item:
    """Return the item that is meant, where at least so many pieces of it lie there."""
    if taking.pieces < 1:
        raise InventoryError(f"{taking.pieces} pieces can't be moved", remedy="At least 1.")
    lies = item_lying(db, kit, taking.asked, taking.origin, here)
    if lies.quantity < taking.pieces:
        raise NotEnoughError(
            f"{in_measure(db, kit, lies.item.part, taking.pieces)} of {lies.item.part} asked for, "
            f"{in_measure(db, kit, lies.item.part, lies.quantity)} in {taking.origin}",
            where=str(taking.origin),
            remedy=f"Count again, or look for the others: kitwright where {lies.item.part}",
        )
    return lies.item


def in_measure(db: Connection, kit: Kit, part: str, quantity: int) -> str:
    """Return a quantity in the part's own measure, for a sentence that refuses or tells."""
    known = find_part(db, kit.id, part)
    return measured(quantity, known.measure if known else Measure.PIECES)


def item_from_outside(db: Connection, kit: Kit, asked: Asked) -> Item:
    """Return the item that comes in from outside; what the lists leave open is asked.

    Hand and length that nobody says are those of the lists, where there is only one.
    """
    key = part_key(asked.part)
    if not key:
        raise InventoryError("a part number is missing", remedy="Type it as it is printed.")
    hand = asked.hand
    if hand is None:
        hands = known_hands(db, kit.id, key) or {Hand.NONE}
        if len(hands) > 1:
            raise InventoryError(
                f"{key} comes in several hands: {', '.join(sorted(hands))}",
                remedy="Say which one with --hand.",
            )
        hand = hands.pop()
    length = asked.length
    if length is None:
        lengths = known_lengths(db, kit.id, key) or {0}
        if len(lengths) > 1:
            raise InventoryError(
                f"{key} comes in several lengths: {', '.join(map(show_length, sorted(lengths)))}",
                remedy="Say which one with --length.",
            )
        length = lengths.pop()
    return Item(key, hand, asked.lot or "", length, asked.state or State.NEW)


def _kinds(found: Sequence[Lying], measure: Measure) -> str:
    return "; ".join(
        f"{measured(lies.quantity, measure)} {item_words(lies.item)}" for lies in found
    )


def item_words(item: Item) -> str:
    """Return what tells an item from others of its number: hand, lot, length, worked."""
    hand = "" if item.hand is Hand.NONE else item.hand.upper()
    lot = f"lot {item.lot}" if item.lot else ""
    length = show_length(item.length) if item.length else ""
    worked = "worked" if item.state is State.WORKED else ""
    return " ".join(word for word in (hand, length, lot, worked) if word) or "without a hand"


def _said(asked: Asked, printed: str) -> str:
    hand = f" {asked.hand.upper()}" if asked.hand not in (None, Hand.NONE) else ""
    lot = f" of lot {asked.lot}" if asked.lot else ""
    return f"{printed}{hand}{lot}"


def _elsewhere(everywhere: Sequence[Lying], here: Sequence[Lying], measure: Measure) -> str:
    if here:
        return f"There lies: {_kinds(here, measure)}."
    places = [
        f"{lies.place} ({measured(lies.quantity, measure)} {item_words(lies.item)})"
        for lies in everywhere
        if lies.quantity > 0 and lies.place.kind in ("bin", "crate", "hold")
    ]
    return f"It lies in {', '.join(places)}." if places else "None of it is in the record."
