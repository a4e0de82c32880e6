"""Left and right in other languages than English: words in any text, letters by their column.

German, French, Spanish, Italian, Portuguese, Dutch, Swedish, Danish, Norwegian, Finnish, Polish,
Czech and Slovak; from memory, common practice, no source.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.patterns import pattern

if TYPE_CHECKING:
    from collections.abc import Iterable

LEFT_WORDS = (
    r"GAUCHE|IZQ|IZDA|IZQUIERD[AO]S?|SINISTR[AO]|ESQ|ESQUERD[AO]S?|VÄNSTER|VENSTRE|VASEN"
    r"|LEW[YAE]|LEV[ÁÝÉ]|ĽAV[ÁÝÉ]"
)
RIGHT_WORDS = (
    r"RECHTS|DERECH[AO]S?|DESTR[AO]|DIREIT[AO]S?|HÖGER|HØYRE|HØJRE|OIKEA"
    r"|PRAW[YAE]|PRAV[ÁÝÉ]"
)
"""Words that mean nothing else on a list of parts."""
LEFT_BESIDE = r"LINKS|SX"
RIGHT_BESIDE = r"DROITE?|DER\.|DCHA|DTA|DX"
"""Words that mean other things, too (chain links, straight): hands where a list says the other."""
STEMS = (
    *(
        "GAUCHE",
        "IZQ",
        "IZDA",
        "SINISTR",
        "ESQ",
        "VÄNSTER",
        "VENSTRE",
        "VASEN",
        "LEW",
        "LEV",
        "ĽAV",
    ),
    *("RECHTS", "DERECH", "DESTR", "DIREIT", "HÖGER", "HØYRE", "HØJRE", "OIKEA", "PRAW", "PRAV"),
)
"""What each of those words begins with; found far quicker in a long text."""
AND = r"UND|ET|Y|E|I|A|OG|OCH|EN|JA"
OR = r"ODER|OU|O|OF|ELLER|LUB|NEBO|ALEBO|TAI"

_WORD = pattern(rf"(?:{LEFT_WORDS}|{LEFT_BESIDE}|{RIGHT_WORDS}|{RIGHT_BESIDE})\.?")
_LETTERS = (
    *(
        ("G", "D"),
        ("E", "D"),
        ("I", "D"),
        ("S", "D"),
        ("V", "H"),
        ("V", "O"),
        ("L", "P"),
        ("P", "S"),
    ),
)
"""Left and right of one language each; P is right in Polish and Czech, left where S stands too."""
_CODE = pattern(
    rf"(?P<one>[A-Z])(?:(?:\s*(?P<sign>[+&/,])\s*|\s+(?P<and>{AND})\s+|\s+(?P<or>{OR})\s+)"
    r"(?P<two>[A-Z]))?"
)


def is_side_abroad(cell: str) -> bool:
    """Say whether a cell for the hand says left or right in another language than English."""
    return _WORD.fullmatch(cell.strip().upper()) is not None


def letters_for_sides(texts: Iterable[str]) -> tuple[str, str] | None:
    """Return the letters by which a column says left and right, where it uses both of a pair.

    None where it says L and R, which need no such help, or may mean more than one pair.
    """
    said: set[str] = set()
    for text in set(texts):
        found = _CODE.fullmatch(text.strip().upper())
        if found:
            said.update(filter(None, (found["one"], found["two"])))
    fits = [pair for pair in _LETTERS if said.issuperset(pair)]
    return fits[0] if len(fits) == 1 and not said >= {"L", "R"} else None


def in_english(text: str, letters: tuple[str, str] | None) -> str:
    """Return what a cell says by those letters with L and R; any other text as it is: `E ou D`."""
    found = _CODE.fullmatch(text.strip().upper()) if letters else None
    if found is None or letters is None:
        return text
    said = [found["one"], found["two"]] if found["two"] else [found["one"]]
    if not set(said) <= set(letters):
        return text
    sides = ["LR"[letters.index(letter)] for letter in said]
    return (" OR " if found["or"] else "+").join(sides)
