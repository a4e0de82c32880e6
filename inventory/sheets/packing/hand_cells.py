"""The hand of a row, from its column, its number and its words; doubts are asked, never guessed."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.items import part_key
from inventory.core.lists.hand_of_numbers import counterpart, hand_of_number
from inventory.core.lists.hand_words import hand_of_column
from inventory.core.lists.hands_abroad import in_english
from inventory.core.lists.packing import ListedHand
from inventory.core.lists.said_hands import NOT_SAID, SaidHand, Strength
from inventory.sheets.packing.list_evidence import of_text

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from inventory.sheets.packing.open_row import OpenRow
    from inventory.sheets.packing.part_cells import NumberRead
    from inventory.sheets.packing.row_asking import RowAsking

_SIDES = {
    "left": "all pieces are left",
    "right": "all pieces are right",
    "pair": "left and right on one row",
    "either": "each piece fits both sides",
    "none": "the part has no hand",
}
_SHORT_REMARK = 24


@frozen
class HandRead:
    """The hand of a row, and both numbers where one stands for a pair."""

    hand: ListedHand
    parts: tuple[str, str] | None = None
    """Left and right number."""


@lru_cache(maxsize=65536)
def _of_number(text: str) -> SaidHand:
    return hand_of_number(text)


@lru_cache(maxsize=1024)
def _of_column(text: str) -> SaidHand | None:
    return hand_of_column(text)


def hand_of(row: OpenRow, number: NumberRead) -> HandRead:
    """Return the hand of a row. Two sources that contradict each other are asked about."""
    view, evidence, asking, below = row.view, row.evidence, row.asking, row.part.lines_below
    text = in_english(view.text("hand"), evidence.side_letters)
    column = _of_column(text) if text else NOT_SAID
    if column is None:
        return _asked_token(text, asking)
    if number.two:
        return _two_dashes(number.two, asking)
    by_number = _of_number(row.printed)
    manners = {"port_is_left": evidence.port_is_left, "abroad": evidence.abroad}
    by_text = of_text(view.description, **manners)
    if by_text is NOT_SAID and below:
        by_text = of_text(" ".join(below), **manners)
    if by_text is NOT_SAID:
        by_text = _of_remarks(view.beside)
    if column is NOT_SAID and by_number is NOT_SAID and by_text is NOT_SAID:
        return _NO_HAND
    return _weighed(row, (column, by_number, by_text))


_NO_HAND = HandRead(ListedHand.NONE)


def _of_remarks(texts: Iterable[str]) -> SaidHand:
    """Take a hand from the first remark that says it and nothing else."""
    for text in texts:
        said = _of_column(text) if len(text) <= _SHORT_REMARK else None
        if said is not None and said.hand is not ListedHand.NONE:
            return said
    return NOT_SAID


def _weighed(row: OpenRow, said: tuple[SaidHand, SaidHand, SaidHand]) -> HandRead:
    asking = row.asking
    column, by_number, by_text = said
    if column.strength and by_text.hand is ListedHand.UNKNOWN:
        by_text = NOT_SAID
    plain = [each for each in (column, by_number, by_text) if each.strength is Strength.WORD]
    weak = [each for each in (by_number, by_text) if 0 < each.strength < Strength.WORD]
    if column.strength and column.hand is ListedHand.NONE:
        weak = []
    hands = {each.hand for each in plain}
    agreed = {each.hand for each in weak} - {ListedHand.NONE}
    if len(hands) == 1 and agreed <= hands:
        hand = hands.pop()
        if hand is ListedHand.UNKNOWN:
            return _asked(asking, f"{by_text.token!r} doesn't say which hand")
        return HandRead(hand, by_number.parts)
    if hands:
        every = ", ".join(f"{each.token} {each.hand}" for each in (*plain, *weak))
        return _asked(asking, f"the row says more than one hand: {every}")
    return _weak(row, weak)


def _weak(row: OpenRow, weak: Sequence[SaidHand]) -> HandRead:
    """Take a bare letter for a hand where the list holds its other hand too; else ask."""
    evidence, asking = row.evidence, row.asking
    hands = {each.hand for each in weak}
    if len(hands) > 1:
        return _asked(asking, "number and description say different hands")
    hand = hands.pop()
    if len(weak) > 1 or _has_other_hand(row):
        return HandRead(hand)
    by_number = weak[0].strength is Strength.LETTER or _of_number(row.printed) is weak[0]
    if by_number and weak[0].strength is Strength.DASH_LETTER and evidence.uses_dash_letters:
        return HandRead(hand)
    shape = "-L/-R" if weak[0].strength is Strength.DASH_LETTER else "L/R"
    name = (
        f"letter {shape} at the end of a part number" if by_number else "letter after description"
    )
    text = row.printed if by_number else row.view.description
    answer = asking.about_list(
        name,
        f"{text[:40]!r}: is its last letter a hand?",
        {"hand": "L is left and R is right", "no hand": "the letter says something else"},
    )
    if answer is None:
        asking.unknown.add("hand")
        return HandRead(ListedHand.UNKNOWN)
    return HandRead(hand if answer == "hand" else ListedHand.NONE)


def _has_other_hand(row: OpenRow) -> bool:
    other = counterpart(row.printed)
    if other and other in row.evidence.parts:
        return True
    text = row.view.description.upper()
    swapped = {"L": "R", "R": "L"}.get(text.rstrip(").")[-1:], "")
    end = text.rstrip(").")
    return bool(swapped) and f"{end[:-1]}{swapped}{text[len(end) :]}" in row.evidence.descriptions


def _asked_token(text: str, asking: RowAsking) -> HandRead:
    answer = asking.about_list(
        f"hand {text[:20]}", f"what does {text[:20]!r} say about the hand?", _SIDES
    )
    return _answered(answer, asking)


def _asked(asking: RowAsking, what: str) -> HandRead:
    return _answered(asking.about_row("hand", what, _SIDES), asking)


def _answered(answer: str | None, asking: RowAsking) -> HandRead:
    if answer is None:
        asking.unknown.add("hand")
        return HandRead(ListedHand.UNKNOWN)
    return HandRead(ListedHand(answer))


def _two_dashes(two: tuple[str, str], asking: RowAsking) -> HandRead:
    """Ask which of two dash numbers is left: digits never say it."""
    answer = asking.about_list(
        "two dash numbers on one row",
        f"{two[0]} and {two[1]} stand on one row: which is left?",
        {
            "first left": "the first number is left, the second right",
            "first right": "the first number is right, the second left",
        },
    )
    if answer is None:
        asking.unknown.update({"hand", "part"})
        return HandRead(ListedHand.UNKNOWN)
    first, second = map(part_key, two)
    left_first = answer == "first left"
    return HandRead(ListedHand.PAIR, (first, second) if left_first else (second, first))
