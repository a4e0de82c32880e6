from __future__ import annotations

import io
from typing import TYPE_CHECKING
from unittest.mock import MagicMock

import pytest

from inventory.cli.exits import Exit

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tests.cli.conftest import Typist


@pytest.fixture(autouse=True)
def ana(monkeypatch: pytest.MonkeyPatch, typed: Typist) -> None:  # noqa: ARG001 - clears the name first
    monkeypatch.setenv("KITWRIGHT_BY", "Ana")


def types(monkeypatch: pytest.MonkeyPatch, text: str) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO(text))


def test_count_shows_what_is_listed_unless_it_is_blind(listed: Typist) -> None:
    told = listed("crate", "count", "2", "T2-RU-0401", "1")
    assert told.out == "1 x T2-RU-0401 counted in crate 2 OF 3; listed 1\n"
    blind = listed("crate", "count", "2", "T2-RU-0402", "1", "--blind")
    assert blind.out == "1 x T2-RU-0402 counted in crate 2 OF 3\n"
    stray = listed("crate", "count", "3", "T2-RU-0402", "1")
    assert stray.out.endswith("; not on the list here\n")


def test_walk_stores_each_answer_and_goes_on_later(
    listed: Typist, monkeypatch: pytest.MonkeyPatch
) -> None:
    types(monkeypatch, "12\n\n16 1d\nq\n")
    told = listed("crate", "count", "1", "--bag", "H1")
    assert "[....................] 0/5 bag H1  AN3-5A  BOLT, HEX  listed 12" in told.out
    assert "15 x AN365-1032A counted in crate 1 OF 3 bag H1; on hold: 1 damaged" in told.out
    assert told.out.endswith("2 lines counted; 3 left: the same command goes on\n")
    types(monkeypatch, "")
    assert "bag H1  AN3-6A" in listed("crate", "count", "1", "--bag", "H1").out


def test_blind_walk_shows_no_number_of_the_list(
    listed: Typist, monkeypatch: pytest.MonkeyPatch
) -> None:
    types(monkeypatch, "\n" * 20)
    told = listed("crate", "count", "1", "--blind")
    assert "AN3-5A" in told.out
    assert "listed" not in told.out


def test_wrong_answer_in_a_walk_is_asked_again(
    listed: Typist, monkeypatch: pytest.MonkeyPatch
) -> None:
    types(monkeypatch, "-3\n2.5\n1 2 3\n12 13d\n12\nq\n")
    told = listed("crate", "count", "1", "--bag", "H1")
    assert told.out.count("NOT STORED") == 4
    # On a terminal the answer's own line feed ends the line of the prompt.
    assert max(len(line.removeprefix("> ")) for line in told.out.splitlines()) <= 80
    assert "12 x AN3-5A counted" in told.out


def test_second_person_counts_blind_and_differences_are_shown(
    listed: Typist, monkeypatch: pytest.MonkeyPatch
) -> None:
    listed("crate", "count", "1", "AN3-5A", "12", "--bag", "H1")
    listed("crate", "count", "1", "AN3-6A", "4", "--bag", "H1")
    types(monkeypatch, "11\n4\n")
    told = listed("crate", "count", "1", "--second", "--by", "Ben")
    assert "listed" not in told.out
    assert told.out.endswith("2 lines counted; all done\n")
    check = listed("crate", "check", "1")
    assert "Ana: 12; Ben: 11" in check.out
    assert "AN3-6A" not in check.out
    assert "Ana: 12" not in listed("crate", "check", "1", "--blind").out


def test_check_of_a_crate_tells_who_counted_which_bag(listed: Typist) -> None:
    bare = listed("crate", "check", "1", "--json").content["bags"]
    assert {(bag["counted"], bag["last"]) for bag in bare} == {(0, None)}
    assert sum(bag["lines"] for bag in bare) == 14
    for person, part in (("Ben", "AN3-5A"), ("Ana", "AN3-6A"), ("Ben", "T2-STRAY")):
        new = ["--new-part"] if part == "T2-STRAY" else []
        listed("crate", "count", "1", part, "4", "--bag", "H1", "--by", person, *new)
    told = {bag["bag"]: bag for bag in listed("crate", "check", "1", "--json").content["bags"]}
    assert told["H1"]["counted"] == 2
    assert told["H1"]["by"] == ["Ben", "Ana"]
    assert "Ben, Ana" in listed("crate", "check", "1").out


def test_second_count_needs_a_name(listed: Typist, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("KITWRIGHT_BY")
    told = listed("crate", "count", "1", "--second")
    assert (told.code, "--by" in told.err) == (Exit.REFUSED, True)


def test_nothing_left_to_count_is_said(listed: Typist) -> None:
    assert "nothing in crate 1 OF 3 is left" in listed("crate", "count", "1", "--second").out


def test_check_hides_what_is_listed_when_blind(listed: Typist) -> None:
    assert "listed" in listed("crate", "check", "1").out
    assert "listed" not in listed("crate", "check", "1", "--blind").out
    hidden = listed("crate", "check", "1", "--blind", "--json").content
    assert {line["shipped"] for line in hidden["crates"][0]["open_lines"]} == {0}
    shown = listed("crate", "check", "1", "--json").content
    assert shown["crates"][0]["open_lines"][0]["shipped"] == 12


def test_as_required_line_is_there_or_not(listed: Typist, monkeypatch: pytest.MonkeyPatch) -> None:
    types(monkeypatch, "\n" * 20)
    assert "as required: there or not" in listed("crate", "count", "1").out
    assert "  AR  " in listed("crate", "check", "1").out


def test_weighed_count_says_how_sure_it_is(listed: Typist) -> None:
    scale = ("--bag", "H3", "--weigh", "tare 12g gross 61.6g sample 25 12.5g step 0.1g")
    told = listed("crate", "count", "1", "MS20470AD4-4", *scale, "--try")
    # Net 49.6 g / 0.5 g = 99.2 pieces (receiving practice, worked example D).
    assert "by weight: about 99" in told.out
    assert "estimate 99.20" in told.out
    assert "look again: by weight it should be about" in told.out
    assert "sort first" in told.err
    again = listed("crate", "count", "1", "MS20470AD4-4", *scale)
    assert again.out.startswith(
        "about 99 x MS20470AD4-4 counted in crate 1 OF 3 bag H3; listed 200\n"
    )


def test_weight_that_can_not_tell_the_listed_number_says_so(listed: Typist) -> None:
    # Twelve bolts listed, eleven by weight give or take one.
    scale = ("--bag", "H1", "--weigh", "gross 55g sample 4 20g step 2g")
    told = listed("crate", "count", "1", "AN3-5A", *scale)
    assert told.out.startswith("about 11 x AN3-5A counted in crate 1 OF 3 bag H1; listed 12\n")
    assert "can't tell that from the 12 listed: neither short nor over" in told.out
    blind = listed("crate", "count", "1", "AN3-5A", *scale, "--recount", "--blind")
    assert "listed" not in blind.out
    second = listed("crate", "count", "1", "AN3-5A", *scale, "--second", "--by", "Ben")
    assert (second.code, "second count by weight" in second.err) == (Exit.REFUSED, True)


def test_number_that_looks_like_a_listed_one_is_asked_about(listed: Typist) -> None:
    words = ("crate", "count", "2", "T2-RU-O401", "1")
    told = listed(*words)
    assert (told.code, told.out) == (Exit.REFUSED, "")
    assert "it looks like T2-RU-0401" in told.err
    weighed = listed(*words[:4], "--weigh", "gross 55g sample 4 20g step 2g")
    assert "it looks like T2-RU-0401" in weighed.err
    assert listed(*words, "--new-part").out.endswith("; not on the list here\n")
    assert listed(*words[:4], "2", "--recount").code == Exit.DONE


def test_file_with_a_mixed_up_number_is_asked_about(listed: Typist) -> None:
    path = listed.folder / "counts.csv"
    path.write_text("crate,part number,pieces\n2,T2-RU-O401,1\n2,T2-RU-4O1,1\n2,ODD-1,1\n")
    told = listed("crate", "count", "--file", str(path))
    assert (told.code, told.out) == (Exit.REFUSED, "")
    assert told.err.count("it looks like T2-RU-0401") == 2
    assert "ODD-1" not in told.err
    taken = listed("crate", "count", "--file", str(path), "--new-part")
    assert taken.out == "3 rows taken in, 3 pieces counted\n"


def test_second_person_counts_one_part_again(listed: Typist) -> None:
    words = ("crate", "count", "1", "AN3-5A", "--bag", "H1", "--second")
    assert "nobody counted it before" in listed(*words[:4], "12", *words[4:]).err
    listed("crate", "count", "1", "AN3-5A", "12", "--bag", "H1")
    assert "Ana counted it last" in listed(*words[:4], "12", *words[4:]).err
    told = listed(*words[:4], "11", *words[4:], "--by", "Ben")
    assert told.out == "11 x AN3-5A counted in crate 1 OF 3 bag H1\n"
    assert "Ana: 12; Ben: 11" in listed("crate", "check", "1").out


def test_sharp_weighing_can_be_called_a_count(listed: Typist) -> None:
    sharp = "gross 60g sample 10 50g step 0.01g spread 0.5"
    told = listed("crate", "count", "1", "AN3-5A", "--bag", "H1", "--weigh", sharp)
    assert told.out.startswith("12 x AN3-5A counted")
    assert "this can be called a count" in told.out


def test_scale_too_coarse_for_any_sample_says_up_to_how_many(listed: Typist) -> None:
    coarse = "gross 600g sample 10 1g step 1g"
    told = listed("crate", "count", "1", "AN3-5A", "--bag", "H1", "--weigh", coarse, "--try")
    assert "no sample makes it exact on this scale; this one counts up to" in told.out


def test_remarks_and_dates_go_with_the_count(listed: Typist) -> None:
    words = ("--remark", "unmarked", "--remark", "No papers", "--expires", "2026-01")
    told = listed("crate", "count", "1", "AN3-5A", "12", "--bag", "H1", *words)
    assert told.code == Exit.DONE
    kinds = {one["kind"] for one in listed("findings", "--json").content}
    assert {"unmarked", "papers missing", "expired"} <= kinds


def test_unknown_remark_names_those_there_are(listed: Typist) -> None:
    told = listed("crate", "count", "1", "AN3-5A", "12", "--remark", "bent")
    assert (told.code, "no papers" in told.err) == (Exit.REFUSED, True)


def test_nothing_typed_shows_the_form(listed: Typist) -> None:
    assert "what was counted?" in listed("crate", "count").err
    assert "what was counted?" in listed("crate", "count", "1", "AN3-5A").err


def test_part_the_supplier_says_need_not_be_counted(listed: Typist) -> None:
    told = listed("crate", "count", "1", "AN960-10", "24", "--bag", "H1", "--as-listed")
    assert told.code == Exit.DONE


def test_number_without_a_part_is_no_walk_along_the_crate(listed: Typist) -> None:
    told = listed("crate", "count", "1", "", "5")
    assert (told.code, told.out) == (Exit.REFUSED, "")
    assert "what was counted?" in told.err


def test_rows_of_a_counts_file_are_told_as_the_file_has_them(listed: Typist) -> None:
    path = listed.folder / "counts.csv"
    path.write_text(
        "crate,bag,part number,pieces,condition\n"
        "1 OF 3,H1,AN3-5A,11,good\n1 OF 3,H1,AN3-5A,1,damaged\n1 OF 3,H1,AN3-6A,4,\n"
    )
    told = listed("crate", "count", "--file", str(path))
    assert told.out == "3 rows taken in, 16 pieces counted\n"


def test_scans_are_stored_together_and_may_add_to_earlier_ones(
    listed: Typist, monkeypatch: pytest.MonkeyPatch
) -> None:
    types(monkeypatch, "AN3-5A\nAN3-5A\n\nAN3-6A\nUNDO\nno such\n")
    told = listed("crate", "count", "1", "--bag", "h1", "--scan")
    assert told.out.endswith("stored: 2 pieces of 1 kind\n")
    types(monkeypatch, "AN3-5A\n")
    assert listed("crate", "count", "1", "--bag", "H1", "--scan").code == Exit.REFUSED
    types(monkeypatch, "AN3-5A\n")
    assert listed("crate", "count", "1", "--bag", "H1", "--scan", "--more").code == Exit.DONE
    lines = listed("findings", "--lines", "--json").content
    assert [one["tally"]["pieces_good"] for one in lines
            if one["tally"]["line"]["part"] == "AN3-5A"] == [3]  # fmt: skip


def test_interrupted_scans_are_stored(listed: Typist, monkeypatch: pytest.MonkeyPatch) -> None:
    def scanned() -> Iterator[str]:
        yield "AN3-5A\n"
        raise KeyboardInterrupt

    scans = scanned()
    stdin = MagicMock(isatty=lambda: True)
    stdin.__iter__.return_value = scans
    monkeypatch.setattr("sys.stdin", stdin)
    told = listed("crate", "count", "1", "--bag", "H1", "--scan")
    assert told.out.endswith("stored: 1 piece of 1 kind\n")
    assert "add --more" in told.err
