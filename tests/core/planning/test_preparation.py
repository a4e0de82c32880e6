from __future__ import annotations

import pytest

from inventory.core.planning.preparation import preparations


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", ()),
        ("primed", ("primed",)),
        ("deburred, primed", ("deburred", "primed")),
        ("Deburred; PRIMED ;, primed", ("deburred", "primed")),
        ("  wash   primed ", ("wash primed",)),
        (" , ;", ()),
    ],
)
def test_each_preparation_is_named_once_in_even_words(text: str, words: tuple[str, ...]) -> None:
    assert preparations(text) == words
