"""Lists of offices abroad: their headings, units, totals and words for left and right."""

from __future__ import annotations

import pytest

from inventory.core.lists.hand_words import hand_in_text
from inventory.core.lists.packing import ListedHand
from inventory.core.measures.quantities import parse_quantity
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


def test_a_polish_list_says_right_by_the_letter_p() -> None:
    rows = [
        ["Lp.", "Nr części", "Nazwa", "Str.", "Zamówiono", "Wysłano", "Do dosłania", "J.m."],
        ["1", "T2-1", "żebro", "L", "2", "2", "", "szt."],
        ["2", "T2-1", "żebro", "P", "2", "0", "2 (do 30.06.2026)", "szt."],
        ["3", "T2-2", "poszycie", "L+P", "4", "4", "", "szt."],
    ]
    found = read_sheets(sheet_of(rows))
    assert not found.questions
    assert [(str(line.hand), line.ordered, line.shipped) for line in found.lines] == [
        ("left", 2, 2), ("right", 2, 0), ("left", 2, 2), ("right", 2, 2),
    ]  # fmt: skip


def test_crosses_under_v_and_h_say_the_side() -> None:
    rows = [
        ["Artikelnr", "Benämning", "V", "H", "Enh.", "Beställt", "Levererat"],
        ["T2-1", "spryglar", "x", "", "st", "3", "3"],
        ["T2-2", "spryglar", "x", "x", "st", "4", "4"],
        ["T2-3", "spryglar", "x", "x", "par", "3", "3"],
        ["T2-4", "lock", "", "", "st", "1", "1"],
    ]
    found = read_sheets(sheet_of(rows))
    assert not found.questions
    assert [(line.part, str(line.hand), line.ordered) for line in found.lines] == [
        ("T2-1", "left", 3), ("T2-2", "left", 2), ("T2-2", "right", 2), ("T2-3", "left", 3),
        ("T2-3", "right", 3), ("T2-4", "none", 1),
    ]  # fmt: skip


def test_columns_so_headed_that_hold_words_are_no_sides() -> None:
    rows = [
        ["Artikelnr", "Benämning", "V", "H", "Antal"],
        ["T2-1", "lock", "norr", "söder", "3"],
    ]
    assert [str(line.hand) for line in read_sheets(sheet_of(rows)).lines] == ["none"]


def test_a_merged_heading_stands_over_left_right_and_none() -> None:
    rows = [
        ["Codice", "Descrizione", "Quantità", "", "", "", "Peso g"],
        ["", "", "SX", "DX", "Senza lato", "Totale", ""],
        ["T2-1", "centina", "2", "2", "", "4", "223"],
        ["T2-2", "tubo", "", "", "1", "1", "98"],
    ]
    found = read_sheets(sheet_of(rows))
    assert [(line.part, str(line.hand), line.ordered) for line in found.lines] == [
        ("T2-1", "left", 2), ("T2-1", "right", 2), ("T2-2", "none", 1),
    ]  # fmt: skip


def test_sets_that_do_not_make_the_total_are_asked_about() -> None:
    rows = [
        ["Teile-Nr.", "Benennung", "Stück je Satz", "Sätze", "gesamt"],
        ["T2-1", "Rippe", "2", "2", "4"],
        ["T2-2", "Holm", "2", "2", "5"],
    ]
    found = read_sheets(sheet_of(rows))
    (question,) = found.questions
    assert [line.part for line in found.lines] == ["T2-1"]
    for answer, pieces in (("5", 5), ("4", 4)):
        lines = read_sheets(sheet_of(rows), answers={question.id: answer}).lines
        assert lines[1].ordered == pieces


@pytest.mark.parametrize(
    "words", ["nach Bedarf", "selon besoin", "q.b.", "efter behov", "dle potřeby", "naar behoefte"]
)
def test_as_required_is_said_in_the_offices_language(words: str) -> None:
    rows = [["PART NUMBER", "DESCRIPTION", "QTY"], ["T2-1", "x", words], ["T2-2", "y", "2"]]
    assert [str(line.count_rule) for line in read_sheets(sheet_of(rows)).lines] == [
        "as-required", "counted",
    ]  # fmt: skip


def test_m_is_a_metre_where_a_hand_is_said_abroad() -> None:
    rows = [
        ["Artikelnr.", "Omschrijving", "Zijde", "Aantal", "Eenh."],
        ["T2-1", "rib", "links", "1", "st"],
        ["T2-2", "profiel", "", "7,32", "m"],
    ]
    found = read_sheets(sheet_of(rows))
    assert not found.questions
    assert (found.lines[1].unit, str(found.lines[1].measure)) == ("MTR", "length")


@pytest.mark.parametrize(
    ("text", "left", "right"), [("2 L + 2 P", 2, 2), ("1 G + 1 D", 1, 1), ("2 ks L", 2, 0)]
)
def test_a_quantity_says_the_sides_by_their_letters(text: str, left: int, right: int) -> None:
    said = parse_quantity(text)
    assert (said.left, said.right, said.doubt) == (left, right, "")


def test_a_lone_p_may_be_port_or_right_and_is_asked_with_its_quantity() -> None:
    """A number taken from such a cell would leave its hand behind."""
    rows = [
        ["PART NUMBER", "DESCRIPTION", "QTY"],
        *(["T2-1", "x", q] for q in ("2 ks P", "1", "3")),
    ]
    found = read_sheets(sheet_of(rows))
    (question,) = found.questions
    assert not question.readings
    answered = read_sheets(sheet_of(rows), answers={question.id: "2 RH"}).lines[0]
    assert (str(answered.hand), answered.ordered) == ("right", 2)


def test_other_letters_are_no_sides() -> None:
    assert parse_quantity("2 L + 2 D").left is None
