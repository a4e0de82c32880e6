"""What a column holds, by its cells: numbers, part numbers, words, hands, units."""

from __future__ import annotations

import re
from collections import Counter
from functools import lru_cache
from itertools import pairwise
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.lists.hand_words import hand_of_column
from inventory.core.lists.hands_abroad import in_english, letters_for_sides
from inventory.core.lists.packing import ListedHand
from inventory.core.measures.days_beside import without_day
from inventory.core.measures.printed_quantity import QuantityKind
from inventory.core.measures.quantities import parse_quantity
from inventory.core.measures.units import find_unit, meanings

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

_PART_LIKE = re.compile(r"(?=.*[0-9])(?=.*[A-Za-z\-/.])[\w./()\-–—'\"*& ]{3,}")
_PLAINLY_PART = re.compile(r"(?=.*[0-9])[A-Z][A-Z0-9]*[-.][A-Z0-9][A-Z0-9.-]{2,}")
_LETTERS_AND_DIGITS = re.compile(r"[A-Z]{1,4}[0-9]{3,8}[A-Z]?")
"""EA5739 is a number, although EA is a unit, too."""
_BOTH = re.compile(
    r"BOTH(?: SIDES| HANDS)?|BEIDE?|BEIDSEITIG|LES DEUX|DEUX|AMB[OA]S|ENTRAMBI", re.IGNORECASE
)
_WHOLE = re.compile(r"[0-9]{1,6}")
_CODE = re.compile(r"[0-9]{4,12}")


@frozen
class Profile:
    """How many cells of a column are of each kind; one cell may count in several."""

    filled: int = 0
    whole: int = 0
    """Whole numbers."""
    quantities: int = 0
    """Whatever reads as a quantity."""
    part_like: int = 0
    words: int = 0
    """Two words or more, mostly letters."""
    hands: int = 0
    sides: int = 0
    """Words for left, right or both; of the hands, without dashes and the like."""
    both_sides: bool = False
    """True where left and right are said, or one of them in more than a letter."""
    units: int = 0
    ticks: int = 0
    codes: int = 0
    """Whole numbers of four digits or more."""
    letters: int = 0
    """Texts that are mostly letters, of one word or more."""
    length: int = 0
    """Characters of all of them together."""
    rising: bool = False
    """True where the whole numbers mostly go up by one or by tens: a line's own number."""

    def share(self, count: int) -> float:
        """Return a count as a share of the filled cells."""
        return count / self.filled if self.filled else 0.0


_STEPS = (1, 10, 100)
"""By how much the numbers of lines go up; stock programs leave room between them."""


def _is_hand(text: str) -> bool:
    """Say whether a cell can be of a hand column; BOTH is, though it is asked what it means."""
    return hand_of_column(text) is not None or _BOTH.fullmatch(text) is not None


def _is_side(text: str) -> bool:
    said = hand_of_column(text)
    return said is not None and said.hand is not ListedHand.NONE


def _says_sides(texts: Iterable[str]) -> bool:
    """Say whether cells surely mean sides: L alone can be a size, a length or a level."""
    said = [(text, hand_of_column(text)) for text in set(texts)]
    hands = {hand.hand for _, hand in said if hand} - {ListedHand.NONE}
    return len(hands) > 1 or any(
        len(text) > 1 for text, hand in said if hand and hand.hand in hands
    )


@lru_cache(maxsize=65536)
def is_part_like(text: str) -> bool:
    """Say whether a text looks like a part number: digits with letters or dashes, few words."""
    if _PLAINLY_PART.fullmatch(text) or _LETTERS_AND_DIGITS.fullmatch(text):
        return True
    return (
        _PART_LIKE.fullmatch(text) is not None
        and text.count(" ") <= 2  # noqa: PLR2004 - MS20470 AD4-3.5, T2-100 REV B
        and parse_quantity(text).kind is QuantityKind.UNREADABLE
    )


def _mostly_letters(text: str) -> bool:
    return sum(map(str.isalpha, text)) > len(text) / 2


def profile(texts: Iterable[str]) -> Profile:
    """Return what the cells of a column are."""
    filled = [text for text in texts if text]
    whole = [int(text) for text in filled if _WHOLE.fullmatch(text)]
    steps = Counter(after - before for before, after in pairwise(whole))
    each = Counter(filled)  # judged once, however often it stands there
    kinds = {text: parse_quantity(without_day(text)).kind for text in each}
    letters = letters_for_sides(each)

    def count(judge: Callable[[str], bool]) -> int:
        return sum(times for text, times in each.items() if judge(text))

    return Profile(
        filled=len(filled),
        whole=len(whole),
        quantities=count(lambda text: kinds[text] is not QuantityKind.UNREADABLE),
        part_like=count(is_part_like),
        words=count(lambda text: " " in text and _mostly_letters(text)),
        letters=count(_mostly_letters),
        length=sum(map(len, filled)),
        hands=count(lambda text: _is_hand(in_english(text, letters))),
        sides=count(lambda text: _is_side(in_english(text, letters))),
        both_sides=_says_sides(each) or any(in_english(text, letters) == "L+R" for text in each),
        units=count(lambda text: bool(find_unit(text) or meanings(text))),
        ticks=count(lambda text: kinds[text] is QuantityKind.TICK),
        codes=count(lambda text: _CODE.fullmatch(text) is not None),
        rising=len(whole) > 2 and 2 * max(steps[by] for by in _STEPS) > len(whole),  # noqa: PLR2004 - three make a row
    )
