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


DATE, EXPONENT = "it became a date", "it became a number with an exponent"
MIXED, TWO = "a letter O or I stands among its digits", "two part numbers stand in one cell"


@pytest.mark.parametrize(
    ("printed", "doubt", "guess"),
    [
        ("3-Apr", DATE, "3-4"),
        ("Apr-03", DATE, "4-3"),
        ("2026-04-03 00:00:00", DATE, "03-04"),
        ("1.00E+05", EXPONENT, "1E5"),
        ("1.25E+03", EXPONENT, "125E1"),
        ("T2-FL-O412", MIXED, "T2-FL-0412"),
        ("MS2O470AD4-4", MIXED, "MS20470AD4-4"),
        ("AN365-1032A / MS20365-1032A", TWO, "MS20365-1032A"),
        ("AN365-1032A (MS20365-1032A)", TWO, "AN365-1032A"),
        ("T2-1001\nT2-1002", TWO, "T2-1002"),
        ("\u04222-100", "it holds cyrillic capital letter te", "T2-100"),
        ("T2-\u0391100", "it holds greek capital letter alpha", "T2-A100"),
    ],
)
def test_spoilt_number_is_asked_and_never_repaired(printed: str, doubt: str, guess: str) -> None:
    read = read_part_number(printed)
    assert read.doubt == doubt
    assert guess in read.guesses
    assert read.part not in read.guesses[:1]


def test_sign_that_cannot_be_printed_is_a_doubt() -> None:
    read = read_part_number("T2-⟨U+202E⟩100")
    assert (read.doubt, read.guesses) == ("it holds a sign that can't be printed", ())


def test_number_in_foreign_letters_is_offered_wholly_in_ours_or_not_at_all() -> None:
    assert read_part_number("\u0415\u0424-77").guesses == ()
    assert read_part_number("\u0415\u0422-77").guesses == ("ET-77",)


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


@pytest.mark.parametrize(
    ("printed", "guesses"),
    [
        ("1.50E+05", ("15E4", "150000")),  # 1.5 x 10^5, as a spreadsheet shows 15E4 and 150000
        ("3.20E+02", ("32E1", "320")),
        ("1.00E+05", ("1E5", "100000")),
    ],
)
def test_a_number_with_an_exponent_could_have_been_two(
    printed: str, guesses: tuple[str, str]
) -> None:
    assert read_part_number(printed).guesses == guesses


@pytest.mark.parametrize("printed", ["2026-04-03", "2026-04-03 00:00", "2026-04-03T00:00:00"])
def test_a_whole_date_is_asked_with_every_order_of_day_and_month(printed: str) -> None:
    read = read_part_number(printed)
    assert (read.doubt, read.guesses) == (DATE, ("3-4", "4-3", "03-04", "04-03", "3/4", "4/3"))


@pytest.mark.parametrize("between", [" / ", "/", " OR ", " = ", ", ", "; ", "\n"])
def test_two_numbers_are_told_apart_however_they_are_parted(between: str) -> None:
    read = read_part_number(f"T2-1000{between}T2-1001")
    assert (read.doubt, read.guesses) == (TWO, ("T2-1000", "T2-1001"))


def test_a_plain_number_says_nothing_else() -> None:
    read = read_part_number("RIB 7")
    assert (read.revision, read.level, read.footnote, read.doubt) == ("", 0, "", "")
    assert read_part_number("RIB*").revision == ""
    assert read_part_number("RIB 7 REV A").footnote == ""


def test_a_revision_without_a_number_leaves_no_number() -> None:
    assert read_part_number("- REV B").part == ""


@pytest.mark.parametrize(("dots", "level"), [("", 0), (".", 1), (". ", 1), ("..", 2), ("> > ", 2)])
def test_every_dot_is_a_level(dots: str, level: int) -> None:
    read = read_part_number(f"{dots}T2 100")
    assert (read.part, read.level) == ("T2 100", level)


@pytest.mark.parametrize("printed", ["P/N P/N: T2-100", "'\"T2-100\"'", "PART NO: T2-100"])
def test_dressing_around_a_number_is_taken_off(printed: str) -> None:
    assert read_part_number(printed).part == "T2-100"


def test_a_letter_without_a_name_is_a_sign_all_the_same() -> None:
    """Unicode's tables give this ideograph no name of its own in Python."""
    assert read_part_number("T2-\U00017000").doubt == "it holds an unknown sign"
