from __future__ import annotations

import pytest

from labels.typeface import CAP_HEIGHT, CODE_WIDTH, DESCENT, Face, font, missing, runs, tidy, width

LETTERS = [Face.CODE, Face.PLAIN, Face.BOLD]


@pytest.mark.parametrize("face", LETTERS)
def test_measures_are_those_of_the_font_file(face: Face) -> None:
    advance = font(face).face.charWidths[ord("0")] / 1000
    assert advance == pytest.approx(width("0", face))
    assert DESCENT <= -font(face).face.descent / 1000 <= DESCENT + 0.005
    assert pytest.approx(1493 / 2048, abs=0.0005) == CAP_HEIGHT


@pytest.mark.parametrize("text", ["0", "I1l", "AN470AD4-5", "Ω"])
def test_every_character_of_the_code_face_is_as_wide(text: str) -> None:
    assert width(text, Face.CODE) == pytest.approx(CODE_WIDTH * len(text), abs=0.001)


@pytest.mark.parametrize(
    ("text", "faces"),
    [
        ("Łańcuch, ő, ç", [Face.PLAIN]),
        ("Ελληνικά", [Face.PLAIN]),
        ("Лопасть", [Face.PLAIN]),
        ("肋骨", [Face.WIDE_COVER]),
        ("リブ", [Face.WIDE_COVER]),
        ("리브", [Face.WIDE_COVER]),
        ("Rib 肋 1", [Face.PLAIN, Face.WIDE_COVER, Face.PLAIN]),
    ],
)
def test_scripts_find_a_typeface(text: str, faces: list[Face]) -> None:
    found = runs(text, Face.PLAIN)
    assert [face for face, _ in found] == faces
    assert "".join(run for _, run in found) == text
    assert missing(text) == ()


def test_wide_characters_are_measured_in_their_own_typeface() -> None:
    assert width("肋", Face.PLAIN) == pytest.approx(1.0, abs=0.06)
    assert width("a肋", Face.PLAIN) == pytest.approx(
        width("a", Face.PLAIN) + width("肋", Face.PLAIN)
    )


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("สลัก", ("U+0E2A THAI CHARACTER SO SUA", "U+0E25 THAI CHARACTER LO LING")),
        (
            "ضلع",
            ("U+0636 ARABIC LETTER DAD", "U+0644 ARABIC LETTER LAM", "U+0639 ARABIC LETTER AIN"),
        ),
        ("a\x07b", ("U+0007 without a name",)),
        ("🛩🛩", ("U+1F6E9 SMALL AIRPLANE",)),
    ],
)
def test_missing_glyphs_are_said_in_words(text: str, words: tuple[str, ...]) -> None:
    assert missing(text)[: len(words)] == words


def test_a_missing_glyph_is_written_as_its_number_and_never_as_a_box() -> None:
    assert runs("x🛩y", Face.PLAIN) == [(Face.PLAIN, "x<U+1F6E9>y")]
    assert width("🛩", Face.PLAIN) == width("<U+1F6E9>", Face.PLAIN)


def test_blanks_and_accents_are_evened_out() -> None:
    assert tidy(" e\u0301\t x\n") == "é x"
