from __future__ import annotations

import pytest

from inventory.core.plain import plain


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("AN3-5A", "AN3-5A"),
        ("Ω ½″ 部品", "Ω ½″ 部品"),
        ("\x1b[2J", "⟨U+001B⟩[2J"),
        ("a\u202eb", "a⟨U+202E⟩b"),
        ("a\nb", "a⟨U+000A⟩b"),
        ("\x9b1m", "⟨U+009B⟩1m"),
    ],
)
def test_commands_and_overrides_are_shown_as_codes(text: str, shown: str) -> None:
    assert plain(text) == shown
