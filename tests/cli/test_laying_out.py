from __future__ import annotations

import io
from typing import TYPE_CHECKING

from inventory.cli.exits import Exit

if TYPE_CHECKING:
    import pytest

    from tests.cli.conftest import Typist


def scanned(small: Typist, patch: pytest.MonkeyPatch, *lines: str) -> str:
    patch.setattr("sys.stdin", io.StringIO("".join(f"{line}\n" for line in lines)))
    return small("lay-out", "10", "--scan", "--by", "Ana", "--on", "2026-03-01").out


def test_sections_are_listed_with_what_was_laid_out(
    small: Typist, monkeypatch: pytest.MonkeyPatch
) -> None:
    scanned(small, monkeypatch, "T2-RIB", "L")
    assert [line.split() for line in small("lay-out").out.splitlines()[2:]] == [
        ["10", "2", "6", "begun", "2026-03-01", "by", "Ana"],
        ["11", "2", "1"],
    ]
    assert small("lay-out", "--json").content[0]["major_parts"] == 6


def test_the_roll_fits_the_screen_and_names_what_is_missing(small: Typist) -> None:
    told = small("lay-out", "10", "--check")
    assert told.code == Exit.FINDINGS
    assert max(map(len, told.out.splitlines())) <= 80
    rows = [line.split() for line in told.out.splitlines()[4:]]
    assert rows[:3] == [
        ["S1", "3", "T2-RIB", "LEFT", "2", "A", "2", "rib,", "nose"],
        ["S1", "3", "T2-RIB", "RIGHT", "2", "B", "1,", "MISSING", "1", "rib,", "nose"],
        ["S1", "4", "T2-SPAR", "1", "C", "1", "spar,", "front"],
    ]


def test_parts_are_scanned_down_and_the_rest_is_the_missing_list(
    small: Typist, monkeypatch: pytest.MonkeyPatch
) -> None:
    told = scanned(small, monkeypatch, "T2-RIB", "L", "T2-RIB", "L", "T2-SPAR", "AN3-5A")
    lines = told.splitlines()
    assert lines[1] == "OK: T2-RIB LEFT, plans S1 3: on the LEFT side, 1 more to come."
    assert lines[5] == (
        "NOT OK: AN3-5A isn't laid out in section 10; it is for step 10-02, 10-03. "
        "Put it where it belongs."
    )
    assert lines[6] == "not laid down: 3 pieces"
    assert lines[9].split() == ["S1", "3", "T2-RIB", "RIGHT", "2", "B", "1,", "MISSING", "1"]
    shown = small("lay-out", "10").out
    assert "begun 2026-03-01; 3 to lay down" in shown
    ended = small("lay-out", "10", "--end", "--on", "2026-03-02", "--by", "Ana")
    assert ended.out.startswith("the lay-out of section 10 is ended and kept\n")
    assert (
        "2026-03-02 by Ana: 3 missing"
        in " ".join(small("lay-out").out.replace("begun", "").split())
        or "3 missing" in small("lay-out").out
    )


def test_a_complete_lay_out_says_so(small: Typist, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO("T2-SKIN\n"))
    told = small("lay-out", "11", "--scan", "--end")
    assert told.out.splitlines()[-2:] == [
        "the lay-out of section 11 is ended and kept",
        "every piece is laid down",
    ]
    assert "complete" in small("lay-out").out


def test_the_roll_is_printed(small: Typist) -> None:
    path = small.folder / "roll.pdf"
    told = small("lay-out", "10", "-o", str(path))
    assert (told.code, told.err) == (Exit.DONE, f"written: {path}\n")
    assert path.read_bytes().startswith(b"%PDF-")


def test_an_unknown_section_is_refused_with_those_there_are(small: Typist) -> None:
    told = small("lay-out", "12")
    assert (told.code, "There are: 10, 11." in told.err) == (Exit.REFUSED, True)


ONE_OF_TWO = """\
Step,Title,Section,Part number,Qty,One of,Sheet,Find
14-01,Fit the tip,14 Fairing,T2-TIP,1,tip,RU-9,1
14-01,,,T2-CAP,2,tip,RU-9,2
14-01,,,T2-RIB,1,,RU-9,3
"""


def test_of_parts_of_which_one_suffices_only_one_is_laid_out(
    typed: Typist, monkeypatch: pytest.MonkeyPatch
) -> None:
    (typed.folder / "plan.csv").write_text(ONE_OF_TWO)
    typed("kit", "new", "Tarn", "--code", "T2")
    typed("plan", "read", str(typed.folder / "plan.csv"))
    assert typed("lay-out", "14").out.startswith("section 14 Fairing: 2 pieces to lay out")
    monkeypatch.setattr("sys.stdin", io.StringIO("T2-CAP\nT2-CAP\nT2-TIP\n"))
    said = typed("lay-out", "14", "--scan").out.splitlines()
    assert said[0].endswith("1 more to come.")
    assert said[1].endswith("complete.")
    assert "one of T2-TIP or T2-CAP suffices, and is laid down already" in said[2]
    assert said[3] == "not laid down: 1 piece"
    assert [line.split()[2] for line in said[6:]] == ["T2-RIB"]
    assert [line.split()[4:6] for line in typed("lay-out", "14").out.splitlines()[5:7]] == [
        ["or", "T2-CAP"],
        ["MISSING", "2,"],
    ]
