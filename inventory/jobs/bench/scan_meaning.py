"""What a scanned or typed line means in a kit: looked up exactly, never guessed."""

from __future__ import annotations

import re
import unicodedata
from difflib import SequenceMatcher
from enum import StrEnum
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError, NotFoundError
from inventory.core.frozen import frozen
from inventory.core.items import Hand, Item, part_key
from inventory.core.places import Place, PlaceKind
from inventory.core.scanning.scanner_check import check_test_card
from inventory.core.scanning.scans import TEST_CARD, ScanKind, read_scan
from inventory.jobs.bench.finding_items import Asked, known_part
from inventory.store.ledger.called import Called, called
from inventory.store.ledger.tags import find_tag
from inventory.store.planning.standing import standing

if TYPE_CHECKING:
    from inventory.core.scanning.scans import Scan
    from inventory.store.kits import Kit
    from inventory.store.opening.database import Connection

_HANDS = {"L": Hand.LEFT, "LEFT": Hand.LEFT, "R": Hand.RIGHT, "RIGHT": Hand.RIGHT}
_CARD_SIZE = 30
_CARD_LIKE = 0.5
"""Half of the card's characters in their order: no part number has that."""
_QUANTITY = re.compile(r"[0-9]{1,4}")


class MeaningKind(StrEnum):
    """What a line can mean at the bench."""

    PLACE = "place"
    STEP = "step"
    PART = "part"
    CONTROL = "control"
    DIGITS = "digits"
    HAND = "hand"
    TEST_CARD = "test card"
    NOTHING = "nothing"


_KIND_WORDS = {
    "PART": MeaningKind.PART,
    "BIN": MeaningKind.PLACE,
    "STEP": MeaningKind.STEP,
}
"""What a person types before a name that several things have."""
_NO_NAMES = frozenset({ScanKind.EMPTY, ScanKind.TOO_LONG, ScanKind.BROKEN_LABEL})
_UNSEEN = frozenset({"Cc", "Cs"})
"""Control characters, and bytes that are no text: no name is read out of them."""


@frozen(kw_only=True)
class Meaning:
    """One line, understood."""

    kind: MeaningKind
    text: str = ""
    """Step code, control word or digits."""
    place: Place | None = None
    asked: Asked | None = None
    hand: Hand | None = None


def meaning(db: Connection, kit: Kit, text: str) -> Meaning:
    """Return what a line means; unknown, ambiguous or foreign codes are refused with words.

    A supplier's number may look like any code of ours, or hold signs that ours never have. So
    what has exactly that name here is found first.
    """
    scan = read_scan(text)
    value, whole = (part_key(each) if _seen(each) else "" for each in (scan.value, scan.whole))
    known = called(db, kit.id, whole, value) if whole or value else Called()
    named = _called(db, kit, scan, known)
    if not named:
        _refuse_unreadable(scan, kit)
    found = list(dict.fromkeys([*_by_label(db, kit, scan, known), *named]))
    if len(found) == 1:
        return found[0]
    if not found:
        _refuse_unknown(db, kit, scan)
    kinds = [f"`{word} {name}`" for word, name in map(_typed, found) if word]
    raise InventoryError(
        f"{scan.whole} can mean {len(found)} things here: " + " or ".join(map(_in_words, found)),
        remedy="Scan the printed label, or type " + " or ".join(kinds) + ".",
    )


def _seen(text: str) -> bool:
    return not any(unicodedata.category(each) in _UNSEEN for each in text)


def _called(db: Connection, kit: Kit, scan: Scan, known: Called) -> list[Meaning]:
    """Return what has exactly this name; behind PART, BIN or STEP only that kind is meant."""
    if scan.kind in _NO_NAMES or not _seen(scan.whole):
        return []
    found = _by_name(db, kit, scan.whole, known)
    word, _, name = scan.whole.partition(" ")
    if not found and word in _KIND_WORDS:
        known = called(db, kit.id, part_key(name))
        found = [each for each in _by_name(db, kit, name, known) if each.kind is _KIND_WORDS[word]]
    return [each for each in found if not scan.refused or each.kind in _KIND_WORDS.values()]


def _typed(meant: Meaning) -> tuple[str, str]:
    """Return how a person types just this one: the word of its kind, and its name."""
    if meant.asked is not None:
        return "PART", meant.asked.part
    if meant.place is not None:
        return "BIN", meant.place.code
    return ("STEP", meant.text) if meant.kind is MeaningKind.STEP else ("", "")


def _in_words(meant: Meaning) -> str:
    word, name = _typed(meant)
    return f"{word.lower()} {name}" if word else f"the {meant.kind.value} {meant.text}".rstrip()


def _refuse_unreadable(scan: Scan, kit: Kit) -> None:
    """Refuse what can't be a code of this kit."""
    _refuse_mangled_card(scan)
    if scan.refused:
        raise InventoryError(scan.words, remedy=scan.remedy)
    if scan.kit and scan.kit != kit.code:
        raise InventoryError(
            f"this is a label of another kit ({scan.kit}), not of {kit.name} ({kit.code})",
            remedy="Put it back where it came from, or open that kit with --kit.",
        )


def _refuse_unknown(db: Connection, kit: Kit, scan: Scan) -> None:
    """Refuse a label that isn't in the record, or a name that nothing has; near ones are named."""
    if scan.kit:
        raise NotFoundError(
            f"label {scan.value} isn't in the record of {kit.name}",
            remedy="It was printed from another store; print a new one.",
        )
    known_part(db, kit, scan.value or scan.whole)


def _refuse_mangled_card(scan: Scan) -> None:
    """Name what the scanner changes where the test card arrived otherwise than printed."""
    if scan.kind not in {ScanKind.WRONG_KEYBOARD, ScanKind.PLAIN} or len(scan.whole) < _CARD_SIZE:
        return
    if SequenceMatcher(None, TEST_CARD, scan.whole, autojunk=False).ratio() > _CARD_LIKE:
        changes = check_test_card(TEST_CARD, scan.whole)
        raise InventoryError(
            "the scanner changes the test card: " + ", ".join(map(str, changes)),
            remedy="Set the scanner's country or this computer's keyboard; until then, don't scan.",
        )


def _by_label(db: Connection, kit: Kit, scan: Scan, known: Called) -> list[Meaning]:
    match scan.kind:
        case ScanKind.EMPTY:
            return [Meaning(kind=MeaningKind.NOTHING)]
        case ScanKind.CONTROL:
            return [Meaning(kind=MeaningKind.CONTROL, text=scan.value)]
        case ScanKind.TEST_CARD:
            return [Meaning(kind=MeaningKind.TEST_CARD)]
        case ScanKind.PLACE | ScanKind.STEP | ScanKind.TAG | ScanKind.REMNANT:
            return _by_tag(db, kit, scan.value)
        case ScanKind.PART | ScanKind.SUPPLIER_LABEL:
            return _by_part(scan.value, known)
        case _:
            return []


def _by_tag(db: Connection, kit: Kit, code: str) -> list[Meaning]:
    subject = find_tag(db, kit.id, code)
    if subject is None:
        return []
    if isinstance(subject, Item):
        asked = Asked(
            part=subject.part,
            hand=subject.hand,
            lot=subject.lot or None,
            length=subject.length or None,
        )
        return [Meaning(kind=MeaningKind.PART, asked=asked)]
    if subject.kind is PlaceKind.STEP:
        return [Meaning(kind=MeaningKind.STEP, text=subject.code)]
    return [Meaning(kind=MeaningKind.PLACE, place=subject)]


def _by_part(number: str, known: Called) -> list[Meaning]:
    key = part_key(number)
    return [Meaning(kind=MeaningKind.PART, asked=Asked(part=key))] if key in known.parts else []


def _by_name(db: Connection, kit: Kit, text: str, known: Called) -> list[Meaning]:
    found = _by_part(text, known)
    if part_key(text) in known.bins:
        bin_ = Place(PlaceKind.BIN, part_key(text))
        found.append(Meaning(kind=MeaningKind.PLACE, place=bin_))
    found += [
        Meaning(kind=MeaningKind.STEP, text=code)
        for code in standing(db, kit.id).codes.get(part_key(text), ())
    ]
    if not found and text in _HANDS:
        found.append(Meaning(kind=MeaningKind.HAND, hand=_HANDS[text]))
    if not found and _QUANTITY.fullmatch(text):
        found.append(Meaning(kind=MeaningKind.DIGITS, text=text))
    return found
