"""Text from files and scanners, made harmless for a screen."""

from __future__ import annotations

import unicodedata

_SHOWN_AS_CODE = frozenset({"Cc", "Cf", "Cs", "Co", "Zl", "Zp"})


def plain(text: str) -> str:
    """Return the text with everything invisible or commanding shown as its code.

    Escape sequences, direction overrides and line breaks come out as ⟨U+001B⟩: a description
    must not clear the screen or turn a part number round.
    """
    if text.isascii() and text.isprintable():
        return text
    return "".join(
        f"⟨U+{ord(sign):04X}⟩" if unicodedata.category(sign) in _SHOWN_AS_CODE else sign
        for sign in text
    )
