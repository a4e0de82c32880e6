from __future__ import annotations

import re
import tomllib
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.core.items import Hand
from inventory.core.lists import hand_words
from inventory.core.lists.hand_of_numbers import counterpart, hand_of_number, numbers_of_two_dashes
from inventory.core.lists.hand_words import hand_in_text, hand_of_column, plain_hand, says_starboard
from inventory.core.lists.packing import ListedHand
from inventory.core.lists.said_hands import Strength

CASES = tomllib.loads((Path(__file__).parents[2] / "cases" / "hands.toml").read_text("utf-8"))


@pytest.mark.parametrize("case", CASES["number"], ids=lambda case: case["part"])
def test_number_says_a_hand_only_by_its_own_token(case: dict[str, Any]) -> None:
    said = hand_of_number(case["part"])
    assert (said.hand, said.strength) == (case["hand"], case["strength"])


@pytest.mark.parametrize("case", CASES["pair"], ids=lambda case: case["part"])
def test_one_number_for_a_pair_gives_both_numbers(case: dict[str, str]) -> None:
    said = hand_of_number(case["part"])
    assert said.hand is ListedHand.PAIR
    assert said.parts == (case["left"], case["right"])
    assert said.token == case["token"]


@pytest.mark.parametrize("case", CASES["text"], ids=lambda case: case["text"])
def test_description_says_a_hand_only_in_words_for_the_part(case: dict[str, str]) -> None:
    assert hand_in_text(case["text"]).hand == case["hand"]


@pytest.mark.parametrize("case", CASES["column"], ids=lambda case: case["text"])
def test_hand_column_is_read_in_its_usual_spellings(case: dict[str, str]) -> None:
    said = hand_of_column(case["text"])
    assert said is not None
    assert said.hand == case["hand"]


@pytest.mark.parametrize("hand", CASES["columns"])
def test_every_spelling_in_a_hand_column_is_read_as_its_hand(hand: str) -> None:
    read = {text: hand_of_column(text) for text in CASES["columns"][hand]}
    assert {text for text, said in read.items() if said is None or said.hand != hand} == set()


@pytest.mark.parametrize("text", CASES["words"])
def test_description_says_by_which_words(text: str) -> None:
    said = hand_in_text(text, port_is_left=True)
    hand, token = CASES["words"][text]
    assert (said.hand, said.token) == (hand, token)


@pytest.mark.parametrize("token", ["BOTH", "B", "S", "?", "INBD", "X"])
def test_other_words_in_a_hand_column_are_not_understood(token: str) -> None:
    assert hand_of_column(token) is None


def test_port_is_a_side_only_where_the_list_says_starboard_too() -> None:
    assert hand_in_text("SKIN, PORT", port_is_left=True).hand is ListedHand.LEFT
    assert hand_in_text("SKIN, PORT").hand is ListedHand.NONE
    assert hand_in_text("STATIC PORT", port_is_left=True).hand is ListedHand.NONE
    assert says_starboard("skin, stbd")
    assert not says_starboard("skin, port")


def test_a_last_letter_is_the_weaker_word() -> None:
    assert hand_in_text("RIB, L").strength is Strength.DASH_LETTER


def test_odd_and_even_dash_numbers_never_say_which_is_left() -> None:
    assert numbers_of_two_dashes("T2-0412-1/-2") == ("T2-0412-1", "T2-0412-2")
    assert hand_of_number("T2-0412-1/-2").hand is ListedHand.NONE
    assert numbers_of_two_dashes("AN960-10/-416") is None
    assert numbers_of_two_dashes("T2-0412") is None


def test_counterpart_swaps_only_the_suffix() -> None:
    for left, right in (("LH", "RH"), ("LEFT", "RIGHT"), ("L", "R"), ("(LH)", "(RH)")):
        assert counterpart(f"T2-0412-{left}") == f"T2-0412-{right}"
        assert counterpart(f"T2-0412-{right}") == f"T2-0412-{left}"
    assert counterpart("T2-0412R") == "T2-0412L"
    assert counterpart("T2-0412") == ""
    assert counterpart("T2-FLOAT-SILL") == ""


def test_hand_of_a_line_that_is_no_pair() -> None:
    hands = [plain_hand(hand) for hand in ListedHand]
    assert hands == [Hand.LEFT, Hand.RIGHT, Hand.NONE, Hand.EITHER, Hand.NONE, Hand.NONE]


PIECES_OF_TEXT = [
    *("LH", "RH", "L.H.", "R/H", "L", "R", "LEFT", "RIGHT", "HAND", "PORT", "STBD", "STARBOARD"),
    *("FUEL PORT", "EITHER SIDE", "FITS BOTH", "INTERCHANGEABLE L", "OPP", "OPPOSITE", "MIRROR"),
    *("THREAD", "&", "/", "+", ",", "AND", "OR", " ", " ", "-", "(", ")", ".", "2", "RIB", "UPPER"),
]


@given(st.lists(st.sampled_from(PIECES_OF_TEXT), max_size=7).map("".join), st.booleans())
def test_every_word_looked_for_in_every_text_says_the_same(text: str, port: bool) -> None:  # noqa: FBT001
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(hand_words, "_MAY_SAY_A_HAND", re.compile(""))
        expected = hand_in_text(text, port_is_left=port)
    assert hand_in_text(text, port_is_left=port) == expected
