"""1.000 and 1,000: one or a thousand, as the list's own decimals say; else it is asked."""

from __future__ import annotations

import pytest

from tests.sheets.written_lists import read

ASKED = {".": "point", ",": "comma"}


def rows_with(*amounts: str) -> list[list[str]]:
    return [[f"T2-{n}", "WASHER", "", amount, "", ""] for n, amount in enumerate(amounts, 1)]


@pytest.mark.parametrize("sign", ASKED)
def test_one_or_a_thousand_is_asked_where_nothing_shows_it(sign: str) -> None:
    packing_list = read(*rows_with(f"1{sign}000", "12"))
    assert [question.id for question in packing_list.questions] == [ASKED[sign]]
    assert [line.ordered for line in packing_list.lines] == [12]


@pytest.mark.parametrize("sign", ASKED)
@pytest.mark.parametrize(("answer", "pieces"), [("thousand", 2000), ("decimal", 2)])
def test_one_answer_settles_it_for_the_list(sign: str, answer: str, pieces: int) -> None:
    packing_list = read(*rows_with(f"2{sign}000"), answers={ASKED[sign]: answer})
    assert [line.ordered for line in packing_list.lines] == [pieces]
    assert packing_list.questions == ()


@pytest.mark.parametrize(
    ("amounts", "pieces"),
    [
        (("0,25 kg", "1.000"), 1000),
        (("2,5 LB", "1.000 EA"), 1000),
        (("1.500,5 kg", "1.000"), 1000),
        (("2.5 LB", "1.000"), 1),
        (("1,500.50 LB", "2,000"), 2000),
        (("0.250 LB", "1,000"), 1000),
        (("1250.000", "1.000"), 1),
        (("0,5 kg", "3,000"), 3),
        (tuple(f"{n}.000" for n in range(3, 13)), 12),
        (tuple(f"{n},000" for n in range(3, 13)), 12),
    ],
)
def test_decimals_of_the_list_show_it(amounts: tuple[str, ...], pieces: int) -> None:
    packing_list = read(*rows_with(*amounts))
    assert packing_list.questions == ()
    assert packing_list.lines[-1].ordered == pieces


@pytest.mark.parametrize(
    "amounts",
    [
        ("0,25 kg", "2.5 LB", "1.000"),  # both signs part decimals somewhere
        ("3.000", "4.000", "5.000"),  # so few may all be thousands
        (*(f"{n}.000" for n in range(3, 13)), "150"),
        ("1.000.000", "1.000"),
    ],
)
def test_what_shows_both_or_nothing_is_asked(amounts: tuple[str, ...]) -> None:
    asked = [question.id for question in read(*rows_with(*amounts)).questions]
    assert "point" in asked


def test_measured_amounts_with_three_digits_are_decimals() -> None:
    row = ["T2-1", "RIVETS", "", "1.000", "KG", ""]
    packing_list = read(row)
    assert (packing_list.questions, len(packing_list.lines)) == ((), 1)
    assert packing_list.lines[0].ordered == 1_000_000_000_000  # nanograms
