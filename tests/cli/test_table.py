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


def test_amounts_break_before_their_unit_and_last_words_go_below_where_nothing_else_fits() -> None:
    columns = [PART, Column("needs", words=True, number=True), WORDS]
    text = drawn(columns, [("MS20470AD4-5", "226.796 gram", "rivet, universal head")], 24)
    assert text.splitlines() == [
        "part number        needs",
        "------------  ----------",
        "MS20470AD4-5     226.796",
        "                    gram",
        "    rivet, universal",
        "    head",
    ]


def test_the_widest_words_give_way_first() -> None:
    columns = [Column("why", words=True), Column("from", words=True)]
    text = drawn(columns, [("never came", "a long name of some supplier")], 24)
    assert text.splitlines()[2:] == [
        "never came  a long name",
        "            of some",
        "            supplier",
    ]


def test_no_number_is_broken_at_its_hyphens() -> None:
    assert "T2-FL-41011" in drawn([WORDS], [("for a spoiled T2-FL-41011 and its mate",)], 20)


def test_a_narrow_strip_of_words_goes_below() -> None:
    columns = [Column("part number"), Column("plans"), Column("words", words=True)]
    long = "SKIN, BOTTOM, BOTTOM BAY 9, .040 2024-T3"
    text = drawn(columns, [("T2-FL-41091-0001", "FL-41-09-000001", long)], 47)
    assert f"\n    {long}\n" in text
    short = drawn(columns, [("T2-FL-41091-0001", "FL-41-09-000001", "SKIN, 9")], 47)
    assert "SKIN, 9" in short.splitlines()[2]
