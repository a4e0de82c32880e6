"""Where pieces can be, and which places may stand below zero."""

from __future__ import annotations

import pytest

from inventory.core.places import OUTSIDE, Place, PlaceKind, crate_code


def test_pieces_enter_the_record_through_these_places_alone() -> None:
    """Anything else below zero would be pieces that were never there."""
    names = "supplier bought made opening saw difference"
    assert sorted(OUTSIDE) == sorted(names.split())


@pytest.mark.parametrize(
    ("place", "words"),
    [
        (Place(PlaceKind.BIN, "B-07"), "bin B-07"),
        (Place(PlaceKind.SUPPLIER), "supplier"),
        (Place(PlaceKind.STEP, "10-02"), "step 10-02"),
    ],
)
def test_a_place_is_named_in_words(place: Place, words: str) -> None:
    assert str(place) == words


@pytest.mark.parametrize(
    ("crate", "bag", "code"),
    [("2 OF 3", "H1", "2 OF 3/H1"), ("2 OF 3", "", "2 OF 3"), ("", "H1", "?/H1"), ("", "", "?")],
)
def test_a_bag_is_named_in_its_crate(crate: str, bag: str, code: str) -> None:
    assert crate_code(crate, bag) == code


def test_a_crate_is_named_without_a_bag() -> None:
    assert crate_code("1 OF 3") == "1 OF 3"
