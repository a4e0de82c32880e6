from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.core.scanning.codes import (
    LARGEST_NUMBER,
    OwnId,
    check_character,
    check_own_id,
    looks_own,
    next_number,
    own_id,
)

ALPHABET = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ*"
payloads = st.text(st.sampled_from(ALPHABET[:-1]), min_size=1, max_size=12)
kit_codes = st.text(st.sampled_from(ALPHABET[:-1]), min_size=2, max_size=2)
numbers = st.integers(0, 10**6)


def weighted_sum(text: str) -> int:
    """The other form of ISO/IEC 7064: each character times its power of 2, summed, mod 37."""
    return sum(ALPHABET.index(sign) << place for place, sign in enumerate(reversed(text))) % 37


def test_check_character_of_the_published_number() -> None:
    # Example in the documentation of python-stdnum 2.2, module mod_37_2.
    assert check_character("G123489654321") == "Y"


@pytest.mark.parametrize(
    ("payload", "check"),
    [
        # By hand: p = 2(p + v) mod 37 for each character, check = (1 - p) mod 37.
        ("0", "1"),  # p 0, check 1
        ("1", "*"),  # p 2, check -1 = 36
        ("A1", "X"),  # p 20, then 2 x 21 = 42 = 5, check -4 = 33
        ("T20001", "3"),  # p 21, 9, 18, 36, 35, 35, check -34 = 3
    ],
)
def test_check_character_by_hand(payload: str, check: str) -> None:
    assert check_character(payload) == check


@given(payloads)
def test_weighted_form_of_the_standard_agrees(payload: str) -> None:
    assert weighted_sum(payload + check_character(payload)) == 1


@given(payloads, st.data())
def test_every_single_wrong_character_is_found(payload: str, data: st.DataObject) -> None:
    place = data.draw(st.integers(0, len(payload) - 1))
    wrong = data.draw(st.sampled_from(ALPHABET[:-1]).filter(lambda sign: sign != payload[place]))
    misread = payload[:place] + wrong + payload[place + 1 :]
    assert check_character(misread) != check_character(payload)


@given(payloads, st.data())
def test_every_swap_of_two_neighbours_is_found(payload: str, data: st.DataObject) -> None:
    whole = payload + check_character(payload)
    place = data.draw(st.integers(0, len(whole) - 2))
    swapped = whole[:place] + whole[place + 1] + whole[place] + whole[place + 2 :]
    assert swapped == whole or weighted_sum(swapped) != 1


@pytest.mark.parametrize("payload", ["a1", "A-1", "A*", "Ä1", " 1"])
def test_other_characters_have_no_check(payload: str) -> None:
    with pytest.raises(ValueError, match="is not one of 0-9 and A-Z"):
        check_character(payload)


def test_own_id_is_kit_number_and_check() -> None:
    assert own_id("T2", 1) == "T200013"
    assert own_id("T2", 42) == "T20042M"
    assert own_id("T2", 10_000) == "T210000E"


def test_numbers_with_a_star_an_i_or_an_o_as_check_are_skipped() -> None:
    # T20003 has *, T20009 has O, T20028 has I.
    assert next_number("T2", 0) == 1
    assert next_number("T2", 2) == 4
    assert next_number("T2", 8) == 10
    assert next_number("T2", 27) == 29


@pytest.mark.parametrize("number", [3, 9, 28])
def test_skipped_number_is_refused(number: int) -> None:
    with pytest.raises(ValueError, match="never given out"):
        own_id("T2", number)


@given(kit_codes, numbers)
def test_given_number_is_read_back(kit: str, after: int) -> None:
    number = next_number(kit, after)
    text = own_id(kit, number)
    assert looks_own(text)
    assert check_own_id(text) == OwnId(kit, number)


@pytest.mark.parametrize(
    "text",
    [
        "T200012",  # wrong check
        "T20013",  # too short
        "T20042m",
        "T2000013",  # 0001 with a zero too many, its check right or not
        "T20042M ",
        "T2-042M",
        "",
    ],
)
def test_wrong_number_is_no_id(text: str) -> None:
    assert check_own_id(text) is None


def test_number_with_a_zero_too_many_is_no_id() -> None:
    text = "T200042" + check_character("T200042")
    assert looks_own(text)
    assert check_own_id(text) is None


def test_number_zero_is_no_id() -> None:
    assert check_own_id("AA0000" + check_character("AA0000")) is None


@pytest.mark.parametrize("kit", ["t2", "T", "T2X", "T-", ""])
def test_kit_code_of_another_shape_is_refused(kit: str) -> None:
    with pytest.raises(ValueError, match="two characters of 0-9 and A-Z"):
        own_id(kit, 1)


@pytest.mark.parametrize("number", [0, -1, LARGEST_NUMBER + 1])
def test_number_out_of_range_is_refused(number: int) -> None:
    with pytest.raises(ValueError, match="a number of ours is 1 to"):
        own_id("T2", number)
