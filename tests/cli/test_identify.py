from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from inventory.cli.exits import Exit

if TYPE_CHECKING:
    from tests.cli.conftest import Typist

PLAN = """STEP,TITLE,PART NUMBER,DESCRIPTION,QTY,LH/RH,THICKNESS,WIDTH,PART LENGTH,HOLES
11-01,Ribs,T2-RU-0412,RIB,2,LH,.032 in,2 in,10 in,8
11-01,,T2-RU-0412,RIB,2,RH,.032 in,2 in,10 in,8
11-01,,T2-RU-0401,SPAR,1,,.040 in,3 in,40 in,30
"""
READ = ("--thickness", ".033in", "--length", "10in", "--holes", "8")


@pytest.fixture
def planned(listed: Typist) -> Typist:
    (listed.folder / "plan.csv").write_text(PLAN)
    assert listed("plan", "read", str(listed.folder / "plan.csv")).code == Exit.DONE
    return listed


def plain(text: str) -> str:
    return " ".join(text.split())


def test_number_is_read_without_any_store(typed: Typist) -> None:
    told = typed("identify", "AN3-5A")
    assert told.code == Exit.DONE
    assert "AN3-5A: hex bolt" in told.out
    assert "grip           1/4 in" in told.out
    assert "never overrules the marking on the bag" in plain(told.out)
    assert max(map(len, told.out.splitlines())) <= 80
    assert typed("identify", "AN960-10", "--json").content["number"]["item"] == "flat washer"


def test_number_of_the_kit_shows_where_it_is(planned: Typist) -> None:
    out = planned("identify", "ms20470ad4-4").out
    assert "in this kit: MS20470AD4-4  RIVET, UNIVERSAL HEAD" in out
    assert "one weighs about 0.201 to 0.217 g (computed)" in out
    assert "AN470AD4-4 -> MS20470AD4-4: superseded, both ways" in plain(out)
    assert "one part on paper" not in out
    other = planned("identify", "AN470AD4-4").out
    assert "one part on paper with: MS20470AD4-4" in plain(other)


@pytest.mark.parametrize("number", ["MS20470AD-5", "AN3-8A", "AN365"])
def test_number_that_can_not_be_shows_nothing_that_replaces_it(typed: Typist, number: str) -> None:
    told = typed("identify", number, "--json").content
    assert (told["number"]["reading"], told["replacements"]) == ("unknown", [])
    assert typed("identify", "AN148551", "--json").content["replacements"]


def test_number_without_successor_is_said_in_words(typed: Typist) -> None:
    out = plain(typed("identify", "AN149300").out)
    assert "AN149300: superseded, one way; no successor" in out


def test_unverified_rules_are_marked(typed: Typist) -> None:
    assert "UNVERIFIED: from memory" in plain(typed("identify", "AN960-10").out)


def test_unknown_number_asks_for_what_looks_like_it(planned: Typist) -> None:
    out = plain(planned("identify", "T2-RU-O412").out)
    assert "not in this kit. Is it T2-RU-0412" in out
    assert "Two different parts can be one character apart" in out
    assert "no family of standard hardware begins like this" in out


def test_own_families_are_read_from_a_file(planned: Typist) -> None:
    file = planned.folder / "mine.toml"
    file.write_text('[[family]]\nname = "x"\n')
    told = planned("identify", "X1", "--families", str(file))
    assert (told.code, "holds 1 problem;" in told.err) == (Exit.REFUSED, True)


def test_measures_give_candidates_and_questions_only(planned: Typist) -> None:
    out = plain(planned("identify", *READ).out)
    assert "T2-RU-0412 LEFT 50% yes thickness +0.001 in (+0.3 tol.)" in out
    assert "T2-RU-0401 - NO" in out
    assert "which hand is it, LEFT or RIGHT" in out
    assert "can't be ruled out, since their sizes aren't recorded" in out
    assert "A question, not an answer" in out
    told = planned("identify", *READ, "--json").content
    assert len(told["ranking"]["candidates"]) == 3


def test_no_open_part_with_sizes_is_said(typed: Typist) -> None:
    typed("kit", "new", "Tarn T2")
    out = typed("identify", *READ).out
    assert "no open part has its sizes recorded" in out
    assert "none of the open parts" not in out


def test_second_person_confirms_what_the_first_says(planned: Typist) -> None:
    held = (*READ, "--as", "T2-RU-0412", "--hand", "left", "--crate", "2", "--by", "Ana")
    told = planned("identify", *held)
    assert told.out == "identification 1: 1 x T2-RU-0412 LEFT, says Ana; not counted yet\n"
    assert "--confirm 1 --by NAME" in told.err
    assert "Ana" in planned("identify", "--waiting").out
    assert planned("identify", "--confirm", "1", "--by", "Ana").code == Exit.REFUSED
    done = planned("identify", "--confirm", "1", "--by", "Ben")
    assert "counted as identified by measurement" in done.out
    assert "felt pen" in done.err
    assert planned("identify", "--waiting").out == "nothing waits for a second person\n"
    again = planned("identify", *held)
    assert again.out.startswith("identification 2")
    assert "nothing is counted" in planned("identify", "--refuse", "2", "--by", "Ben").out
    assert planned("identify", "--waiting", "--json").content == []


def test_nothing_typed_and_no_crate_are_refused(planned: Typist) -> None:
    assert "a number or some measures are needed" in planned("identify").err
    told = planned("identify", *READ, "--as", "T2-RU-0412", "--hand", "left", "--by", "Ana")
    assert "where did it lie?" in told.err
    assert "can't be read as a length" in planned("identify", "--thickness", "thin").err
    assert "-1 holes can't be" in planned("identify", *READ[:4], "--holes", "-1").err
