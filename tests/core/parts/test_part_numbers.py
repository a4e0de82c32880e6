from __future__ import annotations

from calendar import month_abbr

import pytest

from inventory.core.parts.part_numbers import mixed_digits, numbers_of_date, read_part_number


@pytest.mark.parametrize(
    ("printed", "part"),
    [
        ("T2-FL-0412", "T2-FL-0412"),
        (" t2\u2013fl\u20130412 ", "T2-FL-0412"),
        ("00123", "00123"),
        ("1E5", "1E5"),
        ("'00123", "00123"),
        ('"T2-100"', "T2-100"),
        ("P/N: T2-100", "T2-100"),
        ("MS20470 AD4-3.5", "MS20470 AD4-3.5"),
        ("T2-012C", "T2-012C"),
        ("T2-0412-", "T2-0412-"),
        ("O-RING", "O-RING"),
        ("DIN 912", "DIN 912"),
    ],
)
def test_number_is_taken_as_printed_but_for_dressing(printed: str, part: str) -> None:
    read = read_part_number(printed)
    assert (read.part, read.doubt) == (part, "")


@pytest.mark.parametrize(
    ("printed", "revision"),
    [("T2-0412 REV B", "B"), ("T2-0412 (Rev. C)", "C"), ("T2-0412/ISS 2", "2")],
)
def test_revision_behind_the_number_is_read_apart(printed: str, revision: str) -> None:
    read = read_part_number(printed)
    assert (read.part, read.revision) == ("T2-0412", revision)


def test_dots_and_footnotes_are_told_apart_from_the_number() -> None:
    read = read_part_number(". . T2-100*")
    assert (read.part, read.level, read.footnote) == ("T2-100", 2, "*")


@pytest.mark.parametrize(
    ("printed", "doubt", "guess"),
    [
        ("3-Apr", "became a date", "3-4"),
        ("Apr-03", "became a date", "4-3"),
        ("2026-04-03 00:00:00", "became a date", "03-04"),
        ("1.00E+05", "exponent", "1E5"),
        ("1.25E+03", "exponent", "125E1"),
        ("T2-FL-O412", "letter O or I", "T2-FL-0412"),
        ("MS2O470AD4-4", "letter O or I", "MS20470AD4-4"),
        ("AN365-1032A / MS20365-1032A", "two part numbers", "MS20365-1032A"),
        ("AN365-1032A (MS20365-1032A)", "two part numbers", "AN365-1032A"),
        ("T2-1001\nT2-1002", "two part numbers", "T2-1002"),
        ("\u04222-100", "cyrillic", "T2-100"),
        ("T2-\u0391100", "greek", "T2-A100"),
    ],
)
def test_spoilt_number_is_asked_and_never_repaired(printed: str, doubt: str, guess: str) -> None:
    read = read_part_number(printed)
    assert doubt in read.doubt
    assert guess in read.guesses
    assert read.part not in read.guesses[:1]


def test_sign_that_cannot_be_printed_is_a_doubt() -> None:
    assert "can't be printed" in read_part_number("T2-⟨U+202E⟩100").doubt


def test_two_words_without_digits_are_no_two_numbers() -> None:
    assert read_part_number("HINGE / PIANO").doubt == ""


def test_date_could_have_been_six_numbers() -> None:
    assert numbers_of_date(3, 4) == ("3-4", "4-3", "03-04", "04-03", "3/4", "4/3")


def test_number_without_mixed_letters_has_nothing_to_repair() -> None:
    assert mixed_digits("T2-FL-0412") == ""


@pytest.mark.parametrize("printed", ["LH", "rh", "L/H", "Left", "STBD", "LH/RH", "port & stbd"])
def test_a_hand_alone_is_no_number(printed: str) -> None:
    read = read_part_number(printed)
    assert read.doubt == "it says a hand, and no number"
    assert read.guesses == (read.part,)


@pytest.mark.parametrize("printed", ["L-1", "LH2", "PORT-4", "R"])
def test_a_number_that_begins_with_a_hand_is_one(printed: str) -> None:
    assert read_part_number(printed).doubt == ""


@pytest.mark.parametrize("number", range(1, 13))
def test_a_part_number_that_became_a_day_of_any_month_is_asked_back(number: int) -> None:
    month = month_abbr[number].upper()
    assert read_part_number(f"17-{month}").guesses[0] == f"17-{number}"
    assert read_part_number(f"{month}-17").guesses[1] == f"{number}-17"
    assert read_part_number(f"17-{month}").doubt == "it became a date"
