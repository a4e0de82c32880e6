from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.core.errors import InventoryError
from inventory.core.receiving.counts import MOST_PIECES, Count, read_pieces

if TYPE_CHECKING:
    from collections.abc import Callable


@pytest.mark.parametrize(
    ("text", "pieces"), [("0", 0), ("12", 12), (" 007 ", 7), (str(MOST_PIECES), MOST_PIECES)]
)
def test_whole_number_is_a_count(text: str, pieces: int) -> None:
    assert read_pieces(text) == pieces


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("", "nothing was typed"),
        ("-1", "it is negative"),
        ("\u22122", "it is negative"),
        ("2.5", "pieces are whole"),
        ("1/2", "pieces are whole"),
        ("1,000", "pieces are whole"),
        ("2 ea", "it isn't made of digits alone"),
        ("١٢", "it isn't made of digits alone"),
        ("1e3", "it isn't made of digits alone"),
        ("9" * 40, "it isn't made of digits alone"),
    ],
)
def test_anything_else_is_refused(text: str, why: str) -> None:
    with pytest.raises(InventoryError) as refused:
        read_pieces(text)
    assert refused.value.what == f"{text!r} is not a count: {why}"
    assert refused.value.remedy == (
        "Type the pieces counted as a whole number, for instance 0 or 12."
    )


def test_only_the_first_forty_signs_of_what_was_typed_are_shown() -> None:
    with pytest.raises(InventoryError) as refused:
        read_pieces("9" * 41)
    assert refused.value.what == f"'{'9' * 40}' is not a count: it isn't made of digits alone"


def test_more_than_ten_million_pieces_are_no_count() -> None:
    assert read_pieces("10000000") == 10_000_000
    with pytest.raises(InventoryError) as refused:
        read_pieces("10000001")
    assert refused.value.what == "10000001 pieces in one count can't be: the most is 10000000"
    assert refused.value.remedy == "Type the number again; a scanned code may have gone into it."


@given(st.integers(0, MOST_PIECES))
def test_every_count_is_read_as_it_is_printed(pieces: int) -> None:
    assert read_pieces(str(pieces)) == pieces


@given(st.text().filter(lambda text: not text.strip().isascii() or not text.strip().isdigit()))
def test_any_other_text_is_refused_in_words(text: str) -> None:
    with pytest.raises(InventoryError) as refused:
        read_pieces(text)
    assert refused.value.what


@pytest.mark.parametrize(
    "build",
    [
        lambda: Count(part="P", pieces_good=-1),
        lambda: Count(part="P", pieces_damaged=-1),
        lambda: Count(part="P", pieces_wrong=-1),
        lambda: Count(part="P", about=-1),
    ],
)
def test_negative_count_can_not_be_built(build: Callable[[], Count]) -> None:
    with pytest.raises(ValueError, match=r"^a count is never negative: -1$"):
        build()
