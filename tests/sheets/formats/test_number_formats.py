from __future__ import annotations

import pytest

from inventory.sheets.formats.number_formats import is_date_format, plain_number, shown_number


@pytest.mark.parametrize(
    ("stored", "shown"),
    [("7", "7"), ("7.0", "7"), ("0", "0"), ("0.30000000000000004", "0.3"), ("100000", "100000"),
     ("1234567890123456", "1234567890123456"), ("1E5", "100000"), ("-3", "-3"), ("00", "0"),
     ("1e300", "1e+300")],
)  # fmt: skip
def test_number_is_shown_without_rounding_noise(stored: str, shown: str) -> None:
    assert plain_number(stored) == shown


# What a spreadsheet program shows; formats of ECMA-376 part 1, 18.8.30 and 18.8.31.
@pytest.mark.parametrize(
    ("stored", "number_format", "shown"),
    [
        ("123", "00000", "00123"),
        ("412", '"T2-"0000', "T2-0412"),
        ("2", '0" pr"', "2 pr"),
        ("2.5", "0", "3"),
        ("2.5", "0.00", "2.50"),
        ("2.5", "0.##", "2.5"),
        ("2", "0.##", "2"),
        ("1200", "#,##0", "1,200"),
        ("1200.5", "#,##0.00", "1,200.50"),
        ("-4", "0;(0)", "(4)"),
        ("-4", "0", "-4"),
        ("0", '0;-0;"none"', "none"),
        ("0.5", "0%", "50%"),
        ("100000", "0.00E+00", "1.00E+05"),
        ("0.375", "# ?/?", "3/8"),
        ("1.5", "# ?/?", "1 1/2"),
        ("2", "# ?/?", "2"),
        ("1.5", "?/8", "3/2"),
        ("4", "General", "4"),
        ("4", 'General" ea"', "4 ea"),
        ("4", "@", "4"),
        ("4", r"0\ \e\a", "4 ea"),
        ("4", "[Red]0", "4"),
        ("4", "_(0_)", "4"),
        ("4", '0";"', "4;"),
        ("0.5", "#", "1"),
        ("0.04", ".##", ".04"),
    ],
)
def test_number_is_shown_as_its_format_says(stored: str, number_format: str, shown: str) -> None:
    assert shown_number(stored, number_format).text == shown


@pytest.mark.parametrize(
    ("serial", "number_format", "shown"),
    [
        ("46115", "d-mmm", "3-Apr"),
        ("46115", "mmm-dd", "Apr-3"),
        ("46115", "m/d", "4/3"),
        ("46115", "yyyy-mm-dd", "2026-04-03"),
        ("46115", "mmm-yy", "Apr-26"),
        ("46115.5", "yyyy-mm-dd hh:mm", "2026-04-03 12:00"),
        ("0.5", "h:mm", "12:00:00"),
        ("1", "d-mmm", "1-Jan"),
        ("1.5", "[h]:mm", "1900-01-01 12:00"),
    ],
)
def test_date_is_told_and_shown(serial: str, number_format: str, shown: str) -> None:
    found = shown_number(serial, number_format)
    assert (found.text, found.date) == (shown, True)


def test_books_of_1904_count_from_another_day() -> None:
    # 44653 days after 1 January 1904 is 3 April 2026.
    assert shown_number("44653", "d-mmm", epoch_1904=True).text == "3-Apr"
    assert shown_number("0", "d-mmm", epoch_1904=True).text == "1-Jan"


@pytest.mark.parametrize("serial", ["60", "-1", "3000000"])
def test_day_that_never_was_is_an_error(serial: str) -> None:
    assert shown_number(serial, "d-mmm").error


@pytest.mark.parametrize("stored", ["nan", "inf", "1e400"])
def test_number_that_is_none_is_an_error(stored: str) -> None:
    assert shown_number(stored, "General").error


def test_formats_of_dates_are_told_from_numbers() -> None:
    assert is_date_format("d-mmm")
    assert is_date_format("[h]:mm")
    assert not is_date_format("General")
    assert not is_date_format('0" days"')
