from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from inventory.cli.exits import Exit

if TYPE_CHECKING:
    from tests.cli.conftest import Typist


def test_set_aside_is_told_shown_and_let_go(small: Typist) -> None:
    assert small("set-aside").out == "nothing is set aside\n"
    told = small("set-aside", "AN3-5A", "6", "--step", "10-03")
    assert told.out == "6 x AN3-5A are set aside for step 10-03\n"
    assert small("set-aside").out.splitlines()[2].split() == ["10-03", "AN3-5A", "6"]
    assert small("set-aside", "--json").content[0]["quantity"] == 6
    told = small("set-aside", "T2-RIB", "1", "--step", "10-01", "--hand", "left")
    assert told.out == "1 x T2-RIB LEFT are set aside for step 10-01\n"
    told = small("set-aside", "AN3-5A", "0", "--step", "10-03")
    assert told.out == "AN3-5A: none is set aside for step 10-03 any more\n"


@pytest.mark.parametrize("words", [("AN3-5A",), ("AN3-5A", "6"), ("AN3-5A", "--step", "10-03")])
def test_how_many_and_for_which_step_must_be_said(small: Typist, words: tuple[str, ...]) -> None:
    told = small("set-aside", *words)
    assert (told.code, "how many, and for which step" in told.err) == (Exit.REFUSED, True)


def test_a_substitution_is_recorded_with_its_source(small: Typist) -> None:
    assert small("substitute").out == "no substitution is recorded\n"
    small("bin", "put", "AN3-6A", "6", "--from", "bought", "--to", "C", "--new-part")
    words = ("substitute", "AN3-5A", "AN3-6A", "--step", "10-03", "--why", "plans S2, note 4")
    told = small(*words, "--by", "Ana")
    assert told.out == "AN3-6A may be used instead of AN3-5A in step 10-03: plans S2, note 4\n"
    assert "Only the plans or the kit's designer allow a substitution" in told.err
    shown = small("substitute").out.splitlines()
    assert shown[2].split()[:6] == ["AN3-5A", "AN3-6A", "10-03", "plans", "S2,", "note"]
    assert shown[-1] == "step 10-03 uses 2 x AN3-6A instead of AN3-5A"
    assert max(map(len, shown)) <= 80
    assert small("substitute", "--json").content["decisions"][0]["person"] == "Ana"
    back = small(*words, "--no-longer")
    assert "AN3-6A may no longer be used instead of AN3-5A in step 10-03" in back.out
    assert "NO LONGER: plans S2, note 4" in " ".join(small("substitute").out.split())


def test_a_substitution_needs_two_parts_and_a_source(small: Typist) -> None:
    assert "which part stands in for it" in small("substitute", "AN3-5A").err
    assert "who decided it" in small("substitute", "AN3-5A", "T2-SPAR").err


def test_preparation_is_recorded_and_shown(small: Typist) -> None:
    assert small("prepared").out == "nothing is recorded as prepared\n"
    told = small("prepared", "T2-SPAR", "1", "--as", "deburred, primed", "--by", "Ana",
                 "--on", "2026-03-01")  # fmt: skip
    assert told.out == "1 x T2-SPAR: deburred\n1 x T2-SPAR: primed\n"
    shown = small("prepared").out.splitlines()
    assert shown[3].split() == ["2026-03-01", "primed", "T2-SPAR", "1", "1", "Ana"]
    small("prepared", "T2-SPAR", "1", "--as", "primed", "--no-longer")
    content = small("prepared", "--json").content
    assert [each["word"] for each in content["in_bins"]] == ["deburred"]
    assert "how many pieces" in small("prepared", "T2-SPAR", "--as", "primed").err
    assert "how many pieces" in small("prepared", "T2-SPAR", "0", "--as", "primed").err
