"""Packing lists on the command line: questions, answers, layouts, every row."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from inventory.cli.exits import Exit

if TYPE_CHECKING:
    from pathlib import Path

    from tests.cli.conftest import Typist

SHEET = """CURLEW SLIP KIT WORKS - PACKING LIST
Order: CS-77
Part number,Description,Hand,U/M,Qty
T2-X-0001,SPAR,,EA,1
T2-X-0002,"RIB, NOSE",LH/RH,EA,3
AN3-5A,BOLT,,EA,12
"""


@pytest.fixture
def sheet(typed: Typist) -> Path:
    typed("kit", "new", "Tarn T2", "--code", "T2")
    path = typed.folder / "list.csv"
    path.write_text(SHEET, encoding="utf-8")
    return path


def test_odd_total_of_a_pair_is_asked_and_nothing_is_stored(typed: Typist, sheet: Path) -> None:
    told = typed("packing-list", "read", str(sheet))
    assert told.code == Exit.REFUSED
    assert "QUESTION" in told.out
    assert "nothing was stored" in told.err
    assert typed("packing-list", "show", "--json").content == []


def test_answers_settle_the_questions(typed: Typist, sheet: Path) -> None:
    answers = typed.folder / "answers.toml"
    answers.write_text(
        '"quantity of a pair" = "together"\n"text row 5 left and right" = "2 left 1 right"\n'
    )
    told = typed("packing-list", "read", str(sheet), "--answers", str(answers))
    assert told.code == Exit.DONE, told.out
    assert typed("packing-list", "show").out.splitlines()[2].split()[0] == "1"
    lines = typed("packing-list", "show", "1", "--json").content[0]["lines"]
    assert [(one["hand"], one["shipped"]) for one in lines if one["part"] == "T2-X-0002"] == [
        ("left", 2),
        ("right", 1),
    ]
    assert "T2-X-0001" in typed("packing-list", "show", "1").out


def test_every_row_can_be_shown(typed: Typist, sheet: Path) -> None:
    told = typed("packing-list", "read", str(sheet), "--dry-run", "--rows")
    rows = [line.split()[1:3] for line in told.out.splitlines() if line.startswith("text")]
    assert rows == [["1", "head"], ["2", "head"], ["3", "head"]] + [[row, "part"] for row in "456"]


@pytest.mark.parametrize(
    ("text", "words"),
    [("= nonsense", "can't be read"), ('"x" = 3', "is no text")],
)
def test_answers_that_cant_be_read_are_refused(
    typed: Typist, sheet: Path, text: str, words: str
) -> None:
    answers = typed.folder / "answers.toml"
    answers.write_text(text)
    told = typed("packing-list", "read", str(sheet), "--answers", str(answers))
    assert (told.code, words in told.err) == (Exit.REFUSED, True)


def test_columns_that_arent_read_are_named_with_what_to_do(typed: Typist, sheet: Path) -> None:
    hued = SHEET.replace(",U/M,", ",HUE,").replace(",EA,", ",7,")
    sheet.write_text(hued, encoding="utf-8")
    told = typed("packing-list", "read", str(sheet), "--dry-run")
    assert "\ncolumns not read: D HUE\n" in told.out
    assert 'packing-list layout "CURLEW SLIP KIT WORKS" > layout.toml' in told.err
    sheet.write_text(SHEET, encoding="utf-8")
    assert "not read" not in typed("packing-list", "read", str(sheet), "--dry-run").out


def test_file_that_isnt_text_is_refused_in_words(typed: Typist, sheet: Path) -> None:
    layout = typed.folder / "layout.toml"
    layout.write_bytes(b'name = "\xff"')
    told = typed("packing-list", "read", str(sheet), "--layout", str(layout))
    assert (told.code, "no text in UTF-8" in told.err) == (Exit.REFUSED, True)


def test_layout_is_kept_shown_and_listed(typed: Typist, sheet: Path) -> None:
    layout = typed.folder / "layout.toml"
    layout.write_text('name = "CURLEW SLIP KIT WORKS"\n[columns]\n"U/M" = "other"\n')
    kept = typed("packing-list", "layout", "CURLEW SLIP KIT WORKS", "--keep", str(layout))
    assert kept.code == Exit.DONE
    assert '"U/M" = "other"' in typed("packing-list", "layout", "curlew slip kit works").out
    assert "CURLEW" in typed("packing-list", "layouts").out
    assert typed("packing-list", "layouts", "--json").content[0]["name"] == "CURLEW SLIP KIT WORKS"
    told = typed("packing-list", "read", str(sheet), "--dry-run")
    assert "read by the layout of CURLEW SLIP KIT WORKS" in " ".join(told.out.split())


def test_a_supplier_without_a_layout_gets_an_empty_one(typed: Typist, sheet: Path) -> None:
    empty = typed("packing-list", "layout", "NOBODY")
    assert (empty.code, "none is kept yet" in empty.err) == (Exit.DONE, True)
    assert 'name = "NOBODY"\n\n[columns]' in empty.out
    missing = str(sheet.with_name("no.toml"))
    told = typed("packing-list", "read", str(sheet), "--layout", missing)
    assert (told.code, "can't be opened (No such file" in told.err) == (Exit.REFUSED, True)


PLAIN = """CURLEW SLIP KIT WORKS - PACKING LIST
Order: CS-78
Part number,Description,Qty
T2-X-0001,SPAR,1
T2-X-0002,RIB,3
AN3-5A,BOLT,12
"""


def test_list_sent_again_is_shown_line_by_line_and_replaces_the_first(
    typed: Typist, sheet: Path
) -> None:
    sheet.write_text(PLAIN, encoding="utf-8")
    assert typed("packing-list", "read", str(sheet)).code == Exit.DONE
    typed("crate", "count", "?", "T2-X-0002", "3")
    again = sheet.with_name("again.csv")
    again.write_text(PLAIN.replace("RIB,3", "RIB,2") + "T2-X-0003,CLIP,4\n", encoding="utf-8")
    refused = typed("packing-list", "read", str(again))
    assert (refused.code, "--replaces 1" in refused.err) == (Exit.REFUSED, True)
    shown = typed("packing-list", "read", str(again), "--replaces", "1")
    assert shown.code == Exit.DONE, shown.err
    assert "1 added, 0 removed, 1 changed" in shown.out
    assert "shipped 3 -> 2" in " ".join(shown.out.split())
    assert typed("kit", "show", "--json").content["lines"] == 4
    nowhere = typed("packing-list", "read", str(sheet), "--replaces", "9", "--dry-run")
    assert "there is no packing list 9" in nowhere.err


def test_list_that_comes_besides_is_taken_in_as_well(typed: Typist, sheet: Path) -> None:
    sheet.write_text(PLAIN, encoding="utf-8")
    typed("packing-list", "read", str(sheet))
    sheet.write_text(PLAIN + "AN3-6A,BOLT,4\n", encoding="utf-8")
    assert typed("packing-list", "read", str(sheet), "--as-well").code == Exit.DONE
    assert typed("kit", "show", "--json").content["lines"] == 7


def test_pasted_text_is_read_from_the_keyboard(
    typed: Typist, sheet: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    import io  # noqa: PLC0415

    keyboard = io.TextIOWrapper(io.BytesIO(PLAIN.encode()))
    monkeypatch.setattr("sys.stdin", keyboard)
    assert sheet.exists()
    told = typed("packing-list", "read", "-")
    assert (told.code, "3 lines" in told.out) == (Exit.DONE, True), told.err


def test_every_row_is_written_as_one_page(typed: Typist, sheet: Path) -> None:
    page = typed.folder / "list.html"
    told = typed("packing-list", "read", str(sheet), "--dry-run", "--html", str(page))
    assert (told.code, "T2-X-0002" in page.read_text(encoding="utf-8")) == (Exit.DONE, True)
