from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from inventory.core.scanning.codes import next_number, own_id
from inventory.core.scanning.scans import (
    CONTROLS,
    LONGEST,
    LONGEST_LABEL,
    TEST_CARD,
    TEST_CARD_LINES,
    ScanKind,
    read_scan,
    shown,
)

CASES = tomllib.loads(Path(__file__).parents[2].joinpath("cases/scans.toml").read_text())["scan"]

# Unshifted and shifted keys of X11's layouts, US key -> what the desktop's layout types.
GERMAN = str.maketrans("YZ-/+", "ZYß-`")
FRENCH = str.maketrans("AQZWM0123456789-/", "QAWZ,à&é\"'(-è_ç)!")
SPANISH = str.maketrans("-/+", "'-¿")
ITALIAN = str.maketrans("-/+", "'-^")
LAYOUTS = {"German": GERMAN, "French": FRENCH, "Spanish": SPANISH, "Italian": ITALIAN}


@pytest.mark.parametrize("case", CASES, ids=[case["name"] for case in CASES])
def test_line_is_read_as(case: dict[str, Any]) -> None:
    scan = read_scan(case["text"])
    assert scan.kind == case["kind"]
    assert scan.value == case.get("value", "")
    assert scan.kit == case.get("kit", "")
    assert case.get("words", "") in scan.words
    assert scan.refused is bool(scan.words) is bool(scan.remedy)


@pytest.mark.parametrize(
    "case", [case for case in CASES if "part" in case], ids=lambda case: case["name"]
)
def test_supplier_label_says(case: dict[str, Any]) -> None:
    label = read_scan(case["text"]).label
    assert label is not None
    assert label.part == case["part"]
    assert label.pieces == case.get("pieces")
    assert label.lot == case.get("lot", "")
    assert label.packing_list == case.get("packing_list", "")


@given(st.text())
@example("]")
@example("[)>")
@example("\ud800")
@example("[)>\x1e06\x1d\x1e\x04")
@example("]]]]C1")
def test_any_text_gets_an_answer(text: str) -> None:
    scan = read_scan(text)
    assert scan.refused is bool(scan.words)
    assert scan.words.isprintable()


@given(st.text(st.sampled_from("LPSWZQTKC0129-[])>\x1e\x1d\x04 ]"), max_size=40))
def test_text_of_identifiers_gets_an_answer(text: str) -> None:
    scan = read_scan(text)
    assert scan.refused is bool(scan.words)


def test_ten_thousand_characters_are_refused() -> None:
    scan = read_scan("A" * 10_000)
    assert scan.kind is ScanKind.TOO_LONG
    assert scan.words.startswith("10000 characters")
    assert len(scan.whole) == LONGEST


def test_longest_code_is_still_read() -> None:
    assert read_scan("A" * LONGEST).kind is ScanKind.PLAIN
    assert read_scan("A" * (LONGEST + 1)).kind is ScanKind.TOO_LONG


def test_longest_label_is_still_read() -> None:
    head = "[)>\x1e06\x1d1PT2-1\x1dZ"
    fill = "X" * (LONGEST_LABEL - len(head))
    assert read_scan(head + fill).kind is ScanKind.SUPPLIER_LABEL
    assert read_scan(head + fill + "X").kind is ScanKind.TOO_LONG


def test_all_lines_of_the_test_card_hold_all_characters() -> None:
    assert set("".join(TEST_CARD_LINES)) == set(TEST_CARD)
    assert all(len(line) <= 17 for line in TEST_CARD_LINES)


@pytest.mark.parametrize("layout", LAYOUTS.values(), ids=LAYOUTS)
@pytest.mark.parametrize("identifier", ["L", "1W", "9S", "20S"])
@pytest.mark.parametrize("kit", ["T2", "AQ", "YZ", "WM"])
def test_wrong_keyboard_layout_never_makes_another_number_of_ours(
    layout: dict[int, int], identifier: str, kit: str
) -> None:
    number = 0
    for _ in range(200):
        number = next_number(kit, number)
        code = identifier + own_id(kit, number)
        mangled = read_scan(code.translate(layout))
        assert mangled.value == own_id(kit, number) or mangled.kind in {
            ScanKind.WRONG_CHECK,
            ScanKind.WRONG_KEYBOARD,
            ScanKind.PLAIN,
        }


TYPE_IT = "Scan the supplier's part number on the same label, or type it."
RETAIL = "this is a retail or logistics code, not one of our labels"
ONE_CODE = "Scan the single code of the part number, or type it."


@pytest.mark.parametrize(
    ("text", "kind", "words", "remedy"),
    [
        ("]C10104012345678901", ScanKind.GS1, RETAIL, TYPE_IT),
        ("]d50104012345678901", ScanKind.GS1, RETAIL, TYPE_IT),
        ("]D20104012345678901", ScanKind.GS1, RETAIL, TYPE_IT),
        ("]Q3010401234567", ScanKind.GS1, RETAIL, TYPE_IT),
        ("]Q4010401234567", ScanKind.GS1, RETAIL, TYPE_IT),
        ("]E04012345678901", ScanKind.GS1, RETAIL, TYPE_IT),
        ("]e00104012345678901", ScanKind.GS1, RETAIL, TYPE_IT),
        ("01040\x1d10ABC", ScanKind.GS1, RETAIL, TYPE_IT),
        (
            "A" * 101,
            ScanKind.TOO_LONG,
            "101 characters came in one go; our codes have at most 100",
            "Scan one code at a time, slowly.",
        ),
        (
            "[)>06",
            ScanKind.BROKEN_LABEL,
            "the scanner lost the separators between the label's entries",
            ONE_CODE,
        ),
        (
            "[)>\x1e05\x1d1PT2\x1e\x04",
            ScanKind.BROKEN_LABEL,
            "the label carries no entry with a data identifier (format 06)",
            ONE_CODE,
        ),
        (
            "[)>\x1e06\x1d-1\x1e\x04",
            ScanKind.BROKEN_LABEL,
            "an entry of the label doesn't begin with a data identifier",
            ONE_CODE,
        ),
        (
            "[)>\x1e06\x1d1PT2-1\x1d1PT2-2\x1e\x04",
            ScanKind.BROKEN_LABEL,
            "the label says two different things under 1P",
            ONE_CODE,
        ),
        (
            "[)>\x1e06\x1d1PT2-1\x1dQ2.5\x1e\x04",
            ScanKind.BROKEN_LABEL,
            "the label's quantity is not a whole number of pieces",
            ONE_CODE,
        ),
        (
            "T2\x07100",
            ScanKind.CONTROL_CHARACTERS,
            "control characters came with the code",
            "Set the scanner to send plain text with Enter behind it.",
        ),
        (
            '!"$%&(),=!',
            ScanKind.WRONG_KEYBOARD,
            '! " $ % & ( ) , is not on our labels: the scanner types for another keyboard layout',
            "Scan the test card; then set the scanner's country, or this computer's keyboard.",
        ),
        (
            "LT20042N",
            ScanKind.WRONG_CHECK,
            "the check character of T20042N doesn't fit: the code was misread",
            "Scan it again; if that doesn't help, print the label anew.",
        ),
    ],
)
def test_a_refusal_says_why_and_what_to_do(
    text: str, kind: ScanKind, words: str, remedy: str
) -> None:
    scan = read_scan(text)
    assert (scan.kind, scan.words, scan.remedy) == (kind, words, remedy)


@pytest.mark.parametrize("prefix", ["]C0", "]D1", "]D3", "]D4", "]Q1", "]Q2", "]Q5", "]A0"])
def test_other_prefixes_are_taken_off(prefix: str) -> None:
    scan = read_scan(prefix + "T2-100")
    assert (scan.kind, scan.whole) == (ScanKind.PLAIN, "T2-100")


@pytest.mark.parametrize("sign", "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ-./+: ")
def test_every_sign_of_our_labels_is_allowed_inside(sign: str) -> None:
    assert read_scan(f"X{sign}Y").kind is ScanKind.PLAIN


def test_nothing_is_scanned_as_nothing() -> None:
    empty = read_scan(" \r\n")
    assert (empty.kind, empty.whole, empty.value, empty.refused) == (ScanKind.EMPTY, "", "", False)


def test_the_control_sheet_has_ten_digits_and_four_words() -> None:
    words = ["UNDO", "DONE", "YES", "CLEAR", *(f"Q{digit}" for digit in "0123456789")]
    assert sorted(words) == sorted(CONTROLS)
    for word in words:
        scan = read_scan(f"z{word.lower()}")
        assert (scan.kind, scan.value) == (ScanKind.CONTROL, word)
    assert read_scan("ZQ10").kind is ScanKind.PLAIN


def test_the_longest_codes_are_of_these_lengths() -> None:
    assert (LONGEST, LONGEST_LABEL) == (100, 1000)


@pytest.mark.parametrize("line", ["Z0123456789ABCDE", "ZFGHIJKLMNOPQRST", "ZUVWXYZ-./+:"])
def test_a_line_of_the_test_card_is_one(line: str) -> None:
    assert read_scan(line).kind is ScanKind.TEST_CARD
    assert read_scan(line[:-1]).kind is ScanKind.PLAIN


@pytest.mark.parametrize("sign", ["\t", "\x00", "\x02", "\x03", "\ufeff", "\r\n", " "])
def test_what_scanners_put_around_a_code_is_taken_off(sign: str) -> None:
    assert read_scan(f"{sign}T2-100{sign}").whole == "T2-100"


def test_a_part_number_alone_needs_more_than_its_identifier() -> None:
    assert read_scan("1P").kind is ScanKind.PLAIN
    assert (read_scan("1P X").kind, read_scan("1P X").value) == (ScanKind.PART, "X")


def test_characters_are_shown_harmlessly() -> None:
    assert shown("A \u202e½") == "A U+0020 U+202E ½"
