from __future__ import annotations

import tomllib
from itertools import groupby, product
from pathlib import Path
from typing import Any

import pytest
from barcode.codex import Code128
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from labels import LabelError, code128
from tests.labels.raster import old_version_parsing, read_zxing

with old_version_parsing():  # its package loads pylibdmtx where that is installed
    from reportlab.graphics.barcode import code128 as second_encoder

CASES = tomllib.loads((Path(__file__).parents[1] / "cases/code128.toml").read_text())["case"]
ASCII = st.text(st.characters(min_codepoint=0, max_codepoint=127), min_size=1, max_size=30)
KINDS = {"9": "7", "a": "\x05", "b": "k", "x": "W"}
"""A digit, a character of set A alone, one of set B alone, one of both."""


def picture(modules: str) -> Image.Image:
    """Return the symbol with its quiet zones, three dots a module."""
    quiet = "0" * code128.QUIET
    row = bytes(0 if module == "1" else 255 for module in quiet + modules + quiet for _ in "123")
    return Image.frombytes("L", (len(row), 60), row * 60)


def fewest_symbols(kinds: str) -> int:
    """Return the fewest symbols from start to the last character, by trying every way."""
    reached = {(0, code_set) for code_set in "ABC"}
    shifted: set[tuple[int, str]] = set()
    symbols = 1
    while not any(place == len(kinds) for place, _ in reached):
        later: set[tuple[int, str]] = set()
        coming = set(shifted)
        for place, code_set in reached:
            coming |= {(place, other) for other in "ABC" if other != code_set and place}
            if code_set == "C":
                coming |= {(place + 2, "C")} if kinds[place : place + 2] == "99" else set()
                continue
            holds = {"A": "9xa", "B": "9xb"}
            other = "B" if code_set == "A" else "A"
            coming |= {(place + 1, code_set)} if kinds[place] in holds[code_set] else set()
            later |= {(place + 1, code_set)} if kinds[place] in holds[other] else set()
        reached, shifted = coming, later
        symbols += 1
    return symbols


@pytest.mark.parametrize("case", CASES, ids=[case["text"] for case in CASES])
def test_worked_examples(case: dict[str, Any]) -> None:
    assert list(code128.values(case["text"])) == case["values"]


@pytest.mark.parametrize("length", range(1, 7))
def test_no_way_through_the_code_sets_is_shorter(length: int) -> None:
    longer = [
        kinds
        for kinds in map("".join, product("9abx", repeat=length))
        if len(code128.values("".join(KINDS[kind] for kind in kinds))) - 1 != fewest_symbols(kinds)
    ]
    assert longer == []


@given(ASCII)
@settings(max_examples=60, deadline=None)
def test_an_independent_decoder_reads_any_ascii_text(text: str) -> None:
    assert read_zxing(picture(code128.modules(text))) == {("Code 128", text)}


@given(st.text("0123456789-AZ", max_size=12))
@settings(max_examples=60, deadline=None)
def test_a_leading_99_is_kept(rest: str) -> None:
    assert read_zxing(picture(code128.modules("99" + rest))) == {("Code 128", "99" + rest)}


@given(ASCII)
@settings(max_examples=100, deadline=None)
def test_two_other_encoders_never_need_fewer_symbols(text: str) -> None:
    other = second_encoder.Code128(text)
    other.validate()
    other.encode()
    ours = len(code128.values(text))
    assert ours <= len(other.encoded) - 1  # theirs counts the stop symbol
    if not text.startswith("99"):  # a fault of theirs loses it
        assert ours <= len(Code128(text).encoded) + 1  # theirs leaves out the check


@pytest.mark.parametrize("value", range(107))
def test_each_symbol_is_three_bars_and_three_spaces_of_one_to_four(value: int) -> None:
    runs = [len(list(run)) for _, run in groupby(code128.pattern(value))]
    assert (sum(runs), len(runs)) == ((13, 7) if value == code128.STOP_VALUE else (11, 6))
    assert set(runs) <= {1, 2, 3, 4}


def test_width_counts_every_module() -> None:
    assert code128.width("AN3-5A") == len(code128.modules("AN3-5A")) == 11 * 8 + 13


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "nothing was given to stand in Code 128"),
        ("Rib é", "é can't stand in Code 128"),
        ("é½é\x80", "é½\x80 can't stand in Code 128"),
    ],
)
def test_what_code128_cannot_hold_is_refused_by_name(text: str, words: str) -> None:
    with pytest.raises(LabelError) as refused:
        code128.values(text)
    assert refused.value.what == words
    assert refused.value.remedy == "Use ASCII letters, digits and signs."
