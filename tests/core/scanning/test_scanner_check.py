from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.core.scanning.scanner_check import Change, check_test_card
from inventory.core.scanning.scans import TEST_CARD, TEST_CARD_LINES


@pytest.mark.parametrize("end", ["", "\r", "\r\n", "\t"])
@pytest.mark.parametrize("prefix", ["", "]Q1", "]c0"])
@pytest.mark.parametrize("card", [TEST_CARD, *TEST_CARD_LINES, TEST_CARD.lower()])
def test_scanner_that_changes_nothing_passes(prefix: str, card: str, end: str) -> None:
    assert check_test_card(card.upper(), prefix + card + end) == []


def test_german_desktop_shows_y_z_dash_and_slash() -> None:
    got = "Y0123456789ABCDEFGHIJKLMNOPQRSTUVWXZYß.-`:"
    assert [str(change) for change in check_test_card(TEST_CARD, got)] == [
        "Z arrives as Y",
        "Y arrives as Z",
        "Z arrives as Y",
        "- arrives as ß",
        "/ arrives as -",
        "+ arrives as `",
    ]


def test_lost_character_is_named() -> None:
    changes = check_test_card(TEST_CARD, TEST_CARD.replace("+", ""))
    assert changes == [Change("+", "")]
    assert str(changes[0]) == "+ is lost"


def test_added_character_is_named() -> None:
    assert [str(change) for change in check_test_card("ZAB", "ZA\u202eB")] == [
        "arrives as U+202E by itself"
    ]


def test_nothing_at_all_is_everything_lost() -> None:
    assert check_test_card("ZAB", "\r\n") == [Change("ZAB", "")]


@given(st.text(max_size=60))
def test_only_the_card_itself_passes(text: str) -> None:
    assert check_test_card(TEST_CARD, text) or text.strip().upper().endswith(TEST_CARD)
