from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from inventory.core.counted import counted
from inventory.core.natural_order import natural
from inventory.documents.wrapping import NUMBER, PLAIN, one_line, wrapped
from labels.typeface import tidy


@given(st.text("ab -肋骨ő/", max_size=60), st.floats(4, 60))
@settings(max_examples=80, deadline=None)
def test_no_line_is_too_wide_and_no_letter_is_lost(text: str, room: float) -> None:
    lines = wrapped(text, PLAIN, room)
    assert max(map(PLAIN.width, lines)) <= room
    assert "".join("".join(lines).split()) == "".join(tidy(text).split())


@pytest.mark.parametrize(
    ("text", "lines"),
    [
        ("Nose rib, outboard", ["Nose rib,", "outboard"]),
        ("a\n\nb", ["a", "", "b"]),
        ("", [""]),
        ("Unbreakableword", ["Unbreakable", "word"]),
        ("肋骨肋骨肋骨肋骨肋骨", ["肋骨肋骨肋骨", "肋骨肋骨"]),
    ],
)
def test_text_breaks_at_blanks_else_where_it_must(text: str, lines: list[str]) -> None:
    assert wrapped(text, PLAIN, 20) == lines


def test_one_line_ends_in_an_ellipsis_where_it_was_cut() -> None:
    assert one_line("short", PLAIN, 20) == "short"
    cut = one_line("a longer line of words", PLAIN, 20)
    assert cut == "a longer …"
    assert PLAIN.width(cut) <= 20


def test_a_numbers_width_counts_its_characters() -> None:
    assert NUMBER.width("0000") == pytest.approx(4 * 0.602 / 0.729 * 2.1, rel=1e-3)


def test_bins_sort_as_a_person_walks() -> None:
    names = ["B-10", "B-2", "a-1", "B-2b", "10", "9"]
    assert sorted(names, key=natural) == ["9", "10", "a-1", "B-2", "B-2b", "B-10"]


@pytest.mark.parametrize(
    ("number", "word", "said"),
    [(1, "line", "1 line"), (0, "line", "0 lines"), (2, "box", "2 boxes")],
)
def test_counts_are_said_with_their_noun(number: int, word: str, said: str) -> None:
    assert counted(number, word) == said
