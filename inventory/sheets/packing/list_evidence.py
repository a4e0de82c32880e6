"""What the whole list shows about its own manners, before any row is understood."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import field
from functools import cache, lru_cache, partial
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.items import part_key
from inventory.core.lists.hand_of_numbers import counterpart, hand_of_number
from inventory.core.lists.hand_words import (
    hand_in_text,
    hand_of_column,
    says_hand_abroad,
    says_starboard,
)
from inventory.core.lists.hands_abroad import in_english, is_side_abroad, letters_for_sides
from inventory.core.lists.packing import ListedHand
from inventory.core.lists.said_hands import SaidHand, Strength
from inventory.core.measures.printed_quantity import QuantityKind
from inventory.core.measures.units import find_unit
from inventory.core.patterns import pattern
from inventory.sheets.packing.decimal_sign import decimal_sign
from inventory.sheets.packing.row_views import quantity_of
from inventory.sheets.packing.ticked_columns import says_no

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping, Sequence

    from inventory.core.measures.printed_quantity import PrintedQuantity
    from inventory.sheets.packing.packing_tables import Table
    from inventory.sheets.packing.row_results import PartRow

_FEW = 0.25
_SIDES = frozenset({"left", "right"})
_PLAIN_HANDS = frozenset({"L", "R", "LH", "RH", "-"})
_NOTE_NUMBER = pattern(
    r"\s*(?:NOTE\s*)?#?\(?([0-9]{1,2}|[*†‡§]+)\)?\s*[:.)=–—-]*\s*(\S.*)", re.IGNORECASE
)


@frozen(kw_only=True)
class Evidence:
    """What a list shows about itself."""

    parts: frozenset[str] = frozenset()
    """Every part number's key."""
    descriptions: frozenset[str] = frozenset()
    """Every description in capitals."""
    uses_dash_letters: bool = False
    """True where a `-L` and its `-R` both stand on the list."""
    port_is_left: bool = False
    abroad: bool = False
    """True where a hand is said in another language than English."""
    side_letters: tuple[str, str] | None = None
    """Letters for left and right of the list's own language, where they aren't L and R."""
    quantity_is_shipped: bool = False
    """True where a lone quantity column counts what is shipped, besides what is to follow."""
    pairs_mostly_odd: bool = False
    """True where most rows of a pair have an odd quantity, so that each side may be meant."""
    plain_digits: int = 0
    """The usual length of part numbers that are digits alone; 0 where there are few of them."""
    few_plain_numbers: bool = False
    """True where numbers of digits alone are rare among numbers with letters."""
    odd_fills: frozenset[str] = frozenset()
    """Background colours that single out a few part rows."""
    unticked: frozenset[int] = frozenset()
    """Places of tables (their ids) with a column of ticks in which some rows say no."""
    lengths_are_of_stock: bool = False
    """True where only some rows have a length."""
    decimal_sign: Callable[[], str] = str
    """Says a comma or a point; empty where the amounts don't show what parts decimals. It is
    looked for where a row is in doubt about it."""
    notes: Mapping[str, str] = field(default_factory=dict)
    """Notes of the list by the number or sign they begin with."""


def evidence_of(parts: Sequence[PartRow], notes: Iterable[str]) -> Evidence:
    """Return what the part rows and the notes of a list show."""
    printed = [part.number for part in parts]
    keys = frozenset(map(part_key, set(printed)))
    tables = list({id(part.table): part.table for part in parts}.values())
    printed_hands = _texts(parts, tables, "hand")
    letters = letters_for_sides(printed_hands)
    hands = [in_english(text, letters) for text in printed_hands] if letters else printed_hands
    descriptions = {part.description for part in parts}
    suffixed = {key: hand_of_number(key) for key in keys if key[-1:] in "LR"}
    dashed = [key for key, said in suffixed.items() if said.strength is Strength.DASH_LETTER]
    digits = [len(text) for text in printed if text.isdigit()]
    usual = Counter(digits).most_common(1)
    with_length = sum(map(bool, _texts(parts, tables, "length")))
    return Evidence(
        parts=keys,
        descriptions=frozenset(text.upper() for text in descriptions),
        uses_dash_letters=any(counterpart(key) in keys for key in dashed),
        port_is_left=any(map(says_starboard, descriptions.union(hands))),
        quantity_is_shipped=_has_column(tables, "back_ordered") and _quantity_is_shipped(parts),
        abroad=_is_abroad(tables, printed_hands, descriptions),
        side_letters=letters,
        pairs_mostly_odd=_pairs_mostly_odd(parts, hands, descriptions),
        plain_digits=usual[0][0] if usual and usual[0][1] * 2 > len(digits) else 0,
        few_plain_numbers=len(digits) < _FEW * len(printed),
        odd_fills=_odd_fills(parts),
        unticked=frozenset(id(table) for table in tables if says_no(table, parts)),
        lengths_are_of_stock=with_length < (1 - _FEW) * len(parts),
        decimal_sign=cache(partial(decimal_sign, parts)),
        notes=_numbered(notes),
    )


def _texts(parts: Sequence[PartRow], tables: Sequence[Table], meaning: str) -> list[str]:
    """Return what each row says under one meaning; blank where no table has such a column."""
    if not _has_column(tables, meaning):
        return [""] * len(parts)
    return [part.text(meaning) for part in parts]


def _is_abroad(tables: Iterable[Table], hands: Iterable[str], descriptions: Iterable[str]) -> bool:
    """Say whether cells or headings say a hand in another language than English."""
    sides = {c.heading for table in tables for c in table.columns if c.meaning in _SIDES}
    letters = letters_for_sides(hands) or letters_for_sides(sides)
    if letters is not None or any(map(is_side_abroad, {*sides, *hands})):
        return True
    return says_hand_abroad("\n".join({*hands, *descriptions}))


def _has_column(tables: Iterable[Table], meaning: str) -> bool:
    return any(table.places(meaning) for table in tables)


def _quantity_is_shipped(parts: Iterable[PartRow]) -> bool:
    """Judge by rows where more is to follow than the quantity says: it can't be all ordered."""
    for part in parts:
        amounts = part.view.amounts()
        quantity, waiting = amounts.get("quantity"), amounts.get("back_ordered")
        if quantity is None or waiting is None or "ordered" in amounts:
            continue
        if (
            waiting.kind is quantity.kind is QuantityKind.NUMBER
            and waiting.number > quantity.number
        ):
            return True
    return False


def _pairs_mostly_odd(
    parts: Sequence[PartRow], hands: Sequence[str], descriptions: Iterable[str]
) -> bool:
    saying = {text for text in set(hands) if _column_says_pair(text)}
    described = {
        text for text in descriptions if of_text(text, port_is_left=False).hand is ListedHand.PAIR
    }
    numbered = {number for number in {part.number for part in parts} if _number_says_pair(number)}
    if not (saying or described or numbered):
        return False
    odd = even = 0
    for part, hand in zip(parts, hands, strict=True):
        said = hand in saying or part.description in described or part.number in numbered
        quantity = _lone_quantity(part) if said else None
        if quantity is not None:
            odd += quantity.number % 2 == 1
            even += quantity.number % 2 == 0
    return odd > even


def _lone_quantity(part: PartRow) -> PrintedQuantity | None:
    """Return a row's quantity where it is a bare number, and not one of pairs."""
    view = part.view
    quantity = quantity_of(view.text("quantity") or view.text("ordered") or view.text("shipped"))
    bare = quantity.kind is QuantityKind.NUMBER and not quantity.unit and not quantity.halves
    unit = find_unit(view.text("unit"))
    return quantity if bare and (unit is None or unit.word != "pair") else None


def _column_says_pair(text: str) -> bool:
    said = hand_of_column(text) if text and text not in _PLAIN_HANDS else None
    return said is not None and said.hand is ListedHand.PAIR


def _number_says_pair(number: str) -> bool:
    joined = "/" in number or "&" in number
    return joined and hand_of_number(number).hand is ListedHand.PAIR


@lru_cache(maxsize=65536)
def of_text(text: str, *, port_is_left: bool, abroad: bool = False) -> SaidHand:
    """Return the hand a description says, worked out once for each."""
    return hand_in_text(text, port_is_left=port_is_left, abroad=abroad)


def _odd_fills(parts: Sequence[PartRow]) -> frozenset[str]:
    """Return colours of a few rows that aren't whole sub-kits, and whose text says nothing."""
    by_fill: dict[str, list[PartRow]] = {}
    for part in [part for part in parts if part.row.marks]:
        for fill in {mark.fill for mark in part.row.marks.values()}:
            if fill:
                by_fill.setdefault(fill, []).append(part)
    sizes = Counter(part.sub_kit for part in parts) if by_fill else Counter()
    return frozenset(
        fill
        for fill, rows in by_fill.items()
        if len(rows) <= _FEW * len(parts)
        and not _whole_groups(Counter(part.sub_kit for part in rows), sizes)
    )


def _whole_groups(found: Counter[str], sizes: Counter[str]) -> bool:
    return len(sizes) > 1 and all(found[name] == sizes[name] for name in found)


def _numbered(notes: Iterable[str]) -> dict[str, str]:
    numbered: dict[str, str] = {}
    for note in notes:
        found = _NOTE_NUMBER.fullmatch(note)
        if found:
            numbered.setdefault(found[1], found[2])
    return numbered
