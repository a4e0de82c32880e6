"""Lists of offices abroad: their headings, units, totals and words for left and right."""

from __future__ import annotations

import pytest

from inventory.core.lists.hand_words import hand_in_text
from inventory.core.lists.packing import ListedHand
from tests.sheets.written_lists import parts, read_sheets, sheet_of


@pytest.mark.parametrize(
    ("left", "right"),
    [
        ("Rippe links", "Rippe rechts"),
        ("Nervure gauche", "Nervure droite"),
        ("Costilla izq.", "Costilla der."),
        ("Centina sinistra", "Centina destra"),
        ("Okucie lewe", "Okucie prawe"),
    ],
)
def test_a_description_says_its_hand_in_the_offices_language(left: str, right: str) -> None:
    rows = [["PART NUMBER", "DESCRIPTION", "QTY"], ["T2-1", left, "2"], ["T2-2", right, "2"]]
    lines = read_sheets(sheet_of(rows)).lines
    assert [(line.part, str(line.hand)) for line in lines] == [("T2-1", "left"), ("T2-2", "right")]


@pytest.mark.parametrize("words", ["Chain links", "Tube, type R", "Seat, size L", "Barre droite"])
def test_words_that_mean_other_things_say_no_hand(words: str) -> None:
    rows = [["PART NUMBER", "DESCRIPTION", "QTY"], ["T2-1", words, "2"]]
    packing_list = read_sheets(sheet_of(rows))
    assert [str(line.hand) for line in packing_list.lines] == ["none"]
    assert not packing_list.questions


def test_a_part_that_fits_l_or_r_has_either_hand() -> None:
    assert hand_in_text("Panel, fits L or R").hand is ListedHand.EITHER


def test_a_lone_letter_behind_a_description_is_asked_about() -> None:
    rows = [["PART NUMBER", "DESCRIPTION", "QTY"], ["T2-1", "Lower panel R", "1"]]
    assert parts(read_sheets(sheet_of(rows))) == [
        "T2-1 unknown 1/1/0 EA ? letter after description"
    ]


def test_number_and_hand_in_words_stand_in_one_cell() -> None:
    rows = [
        ["Sach-Nr.", "Benennung", "Menge"],
        ["T2-1 links", "Rippe", "1"],
        ["T2-2 li/re", "Steg", "2"],
    ]
    lines = read_sheets(sheet_of(rows)).lines
    assert [(str(line.hand), line.shipped) for line in lines] == [
        ("left", 1),
        ("left", 1),
        ("right", 1),
    ]


def test_short_headings_part_ordered_shipped_and_to_follow() -> None:
    rows = [
        ["Sach-Nr.", "Benennung", "Menge best.", "Menge gel.", "Rückstand", "ME"],
        ["T2-1", "Blech", "4", "2", "2", "Stk"],
    ]
    (line,) = read_sheets(sheet_of(rows)).lines
    assert (line.ordered, line.shipped, line.back_ordered) == (4, 2, 2)


def test_what_an_italian_list_misses_is_to_follow() -> None:
    rows = [
        ["Codice", "Descrizione", "Q.tà ord.", "Q.tà sped.", "Mancanti", "Cassa"],
        ["T2-1", "Longherone", "2", "1", "1", "C1"],
    ]
    (line,) = read_sheets(sheet_of(rows)).lines
    assert (line.ordered, line.shipped, line.back_ordered, line.crate) == (2, 1, 1, "C1")


def test_a_polish_list_names_crates_and_sums() -> None:
    rows = [
        ["Lp.", "Nr części", "Nazwa", "Ilość", "Jm", "Skrzynia"],
        ["1", "T2-1", "Żebro", "6", "szt.", "S1"],
        ["2", "T2-2", "Wkręt", "5", "szt.", "S1"],
        ["Razem", "", "", "11", "", ""],
    ]
    packing_list = read_sheets(sheet_of(rows))
    assert [(line.part, line.crate) for line in packing_list.lines] == [
        ("T2-1", "S1"),
        ("T2-2", "S1"),
    ]
    assert str(packing_list.rows[-1].row_class) == "total"
    assert not packing_list.questions
