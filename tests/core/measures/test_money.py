from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.core.errors import InventoryError
from inventory.core.measures.money import Price, parse_price


@pytest.mark.parametrize(
    ("text", "price"),
    [
        ("12.50", Price(12_500_000)),
        ("12.5 eur", Price(12_500_000, "EUR")),
        (" USD 0.031 ", Price(31_000, "USD")),
        ("4", Price(4_000_000)),
        ("0.000001 CHF", Price(1, "CHF")),
        ("12.50EUR", Price(12_500_000, "EUR")),
        ("eur4", Price(4_000_000, "EUR")),
    ],
)
def test_prices_are_read_as_they_are_written(text: str, price: Price) -> None:
    assert parse_price(text) == price


@pytest.mark.parametrize(
    "text",
    ["", "EUR", "12,50", "1,200", "$12", "12.50 EU", "12 EUR each", "-4", "1.2345678", "4 5"],
)
def test_what_may_mean_two_prices_is_refused(text: str) -> None:
    with pytest.raises(InventoryError) as refused:
        parse_price(text)
    assert refused.value.what == f"{text!r} can't be read as a price"
    assert refused.value.remedy == (
        "Write it with a point and the currency's three letters, for instance 12.50 EUR"
    )


def test_a_refusal_shows_the_first_forty_signs() -> None:
    with pytest.raises(InventoryError) as refused:
        parse_price(" " + "x" * 41)
    assert refused.value.what == f"'{'x' * 40}' can't be read as a price"


@pytest.mark.parametrize(
    ("price", "text"),
    [
        (Price(12_500_000, "EUR"), "12.50 EUR"),
        (Price(31_000), "0.031"),
        (Price(4_000_000), "4.00"),
        (Price(4_000_001), "4.000001"),
        (Price(0), "0.00"),
        (Price(500_000), "0.50"),
    ],
)
def test_prices_have_two_decimals_and_more_only_where_needed(price: Price, text: str) -> None:
    assert str(price) == text


@given(st.integers(0, 10**12), st.sampled_from(["", "EUR", "JPY"]))
def test_a_price_is_read_back_as_it_was(amount: int, currency: str) -> None:
    assert parse_price(str(Price(amount, currency))) == Price(amount, currency)
