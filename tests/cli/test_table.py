from __future__ import annotations

from inventory.cli.table import Column, drawn, shown_width

PART = Column("part number")
WORDS = Column("description", words=True)


def test_words_are_wrapped_and_part_numbers_stay_whole() -> None:
    text = drawn([PART, WORDS], [("MS20470AD4-5", "rivet universal head one eighth")], 30)
    assert text.splitlines() == [
        "part number   description",
        "------------  ----------------",
        "MS20470AD4-5  rivet universal",
        "              head one eighth",
    ]


def test_part_number_stays_whole_on_the_narrowest_screen() -> None:
    assert "MS20470AD4-5" in drawn([PART, WORDS], [("MS20470AD4-5", "a b")], 5)


def test_numbers_stand_to_the_right() -> None:
    text = drawn([Column("pieces", number=True)], [(7,), (1200,)], 80)
    assert text.splitlines()[2:] == ["     7", "  1200"]


def test_no_line_is_wider_than_the_screen() -> None:
    rows = [("AN3-5A", "word " * 60)]
    assert max(map(len, drawn([PART, WORDS], rows, 80).splitlines())) <= 80


def test_escape_sequences_are_shown_not_run() -> None:
    assert "\x1b" not in drawn([WORDS], [("\x1b[2Jgone",)], 80)


def test_wide_signs_take_two_columns_and_accents_none() -> None:
    assert (shown_width("部品"), shown_width("e\u0301")) == (4, 1)
