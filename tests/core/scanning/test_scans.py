from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from inventory.core.scanning.codes import next_number, own_id
from inventory.core.scanning.scans import (
    LONGEST,
    LONGEST_LABEL,
    TEST_CARD,
    TEST_CARD_LINES,
    ScanKind,
    read_scan,
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
