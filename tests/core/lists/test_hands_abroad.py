"""Letters and words for left and right in other languages than English; all from memory."""

from __future__ import annotations

import pytest

from inventory.core.lists.hand_words import (
    hand_in_text,
    hand_of_column,
    numbers_of_sides,
    says_hand_abroad,
)
from inventory.core.lists.hands_abroad import in_english, letters_for_sides
from inventory.core.lists.packing import ListedHand


@pytest.mark.parametrize(
    ("texts", "letters"),
    [
        (["G", "D", "G + D", ""], ("G", "D")),
        (["E", "D", "E ou D"], ("E", "D")),
        (["V", "H"], ("V", "H")),
        (["L", "P", "L+P", "U"], ("L", "P")),
        (["L i P"], ("L", "P")),
        (["P", "S"], ("P", "S")),
        (["L", "R"], None),
        (["L", "R", "P"], None),
        (["E"], None),
        (["Links", "Rechts"], None),
        (["E", "G", "D"], None),
    ],
)
def test_both_letters_of_a_pair_say_what_each_means(
    texts: list[str], letters: tuple[str, str] | None
) -> None:
    assert letters_for_sides(texts) == letters


@pytest.mark.parametrize(
    ("text", "english"),
    [("P", "R"), ("l", "L"), ("L + P", "L+R"), ("P/L", "R+L"), ("L lub P", "L OR R"),
     ("U", "U"), ("lewa", "lewa"), ("L + R", "L + R")],
)  # fmt: skip
def test_cells_are_read_by_the_letters_of_their_column(text: str, english: str) -> None:
    assert in_english(text, ("L", "P")) == english
    assert in_english(text, None) == text


@pytest.mark.parametrize(
    ("text", "hand"),
    [
        ("links und rechts", ListedHand.PAIR),
        ("gauche et droite", ListedHand.PAIR),
        ("l + r", ListedHand.PAIR),
        ("links of rechts", ListedHand.EITHER),
        ("gauche ou droite", ListedHand.EITHER),
        ("fits LH or RH", ListedHand.EITHER),
        ("prawa", ListedHand.RIGHT),
        ("levý", ListedHand.LEFT),
        ("esq.", ListedHand.LEFT),
        ("dcha.", ListedHand.RIGHT),
    ],
)
def test_a_column_says_its_hand_in_words(text: str, hand: ListedHand) -> None:
    said = hand_of_column(text)
    assert said is not None
    assert said.hand is hand


@pytest.mark.parametrize(
    ("text", "hand"),
    [
        ("Rippe, links und rechts", ListedHand.PAIR),
        ("Rippe, rechts und links", ListedHand.PAIR),
        ("Rippe, links oder rechts verwendbar", ListedHand.EITHER),
        ("costilla (4 izq. + 4 dcha.)", ListedHand.PAIR),
        ("GUSSET 3 LH + 3 RH", ListedHand.PAIR),
        ("GUSSET 3 RH, 1 LH", ListedHand.PAIR),
        ("nervura, lado esquerdo", ListedHand.LEFT),
        ("żebro prawe", ListedHand.RIGHT),
        ("CHAIN LINKS", ListedHand.NONE),
    ],
)
def test_a_description_says_both_sides_or_one(text: str, hand: ListedHand) -> None:
    assert hand_in_text(text).hand is hand


@pytest.mark.parametrize(
    ("text", "sides"),
    [
        ("GUSSET 3 LH + 1 RH", (3, 1)),
        ("GUSSET 1 RH, 3 LH", (3, 1)),
        ("2 x links, 2 x rechts", (2, 2)),
        ("(4 izq. + 4 dcha.)", (4, 4)),
        ("LH + RH", None),
        ("T2-3 LH AND 4 BOLTS", None),
    ],
)
def test_a_text_says_how_many_are_of_each_side(text: str, sides: tuple[int, int] | None) -> None:
    assert numbers_of_sides(text) == sides


@pytest.mark.parametrize(
    ("left", "right"),
    [("gauche", "derecha"), ("izq.", "dcha."), ("izda.", "rechts"), ("sinistro", "destro"),
     ("esq.", "direito"), ("vänster", "höger"), ("venstre", "høyre"), ("venstre", "højre"),
     ("vasen", "oikea"), ("lewy", "prawy"), ("levý", "pravý"), ("ľavá", "pravá")],
)  # fmt: skip
def test_each_word_for_a_side_is_known_in_a_description(left: str, right: str) -> None:
    sides = [hand_in_text(f"rib, {word} 2", abroad=True).hand for word in (left, right)]
    assert sides == [ListedHand.LEFT, ListedHand.RIGHT]
    assert hand_in_text("FSXS-LINKSX", abroad=True).hand is ListedHand.NONE


def test_what_is_said_abroad_is_told_from_english() -> None:
    assert says_hand_abroad("nervura direita")
    assert not says_hand_abroad("LEWD LEVER, RIGHT")
