"""Papers from the command line: the file's name says the kind, `--paper` says the size."""

from __future__ import annotations

import csv
from typing import TYPE_CHECKING

import openpyxl
import pypdfium2
import pytest

from inventory.cli.exits import Exit
from tests.cli.rudder_kit import KIT

if TYPE_CHECKING:
    from tests.cli.conftest import Typist

PAPERS = (
    ("pick", "11-01"),
    ("plan", "show", "11-01"),
    ("lay-out", "11 Frame"),
    ("bin", "show"),
    ("bin", "show", "--stock"),
    ("to-order",),
)


@pytest.fixture
def counted(rudder_counted: Typist) -> Typist:
    rudder_counted("bin", "add", "D-01")
    rudder_counted("bin", "put", "AN3-5A", "11", "--from", "crate 1/H1", "--to", "D-01")
    rudder_counted("plan", "read", str(KIT / "plan.xlsx"))
    return rudder_counted


@pytest.mark.parametrize("words", PAPERS, ids=" ".join)
def test_each_paper_is_what_its_name_says(counted: Typist, words: tuple[str, ...]) -> None:
    path = counted.folder / "paper"
    for size, across in (("a4", 595), ("letter", 612)):
        told = counted(*words, "-o", str(path.with_suffix(".pdf")), "--paper", size)
        assert told.code == Exit.DONE, told.err
        with pypdfium2.PdfDocument(path.with_suffix(".pdf").read_bytes()) as document:
            assert round(document[0].get_size()[0]) in {across, 842 if size == "a4" else 792}
    counted(*words, "-o", str(path.with_suffix(".xlsx")))
    counted(*words, "-o", str(path.with_suffix(".csv")))
    sheet = openpyxl.load_workbook(path.with_suffix(".xlsx")).worksheets[0]
    lines = path.with_suffix(".csv").read_text("utf-8-sig").splitlines()
    assert next(csv.reader(lines)) == [cell.value for cell in sheet[1]]
    refused = counted(*words, "-o", str(path.with_suffix(".doc")))
    assert (refused.code, "End it in" in refused.err) == (Exit.REFUSED, True)


def test_findings_are_tables_and_no_letter(counted: Typist) -> None:
    path = counted.folder / "findings.csv"
    counted("findings", "-o", str(path))
    assert path.read_text("utf-8-sig").startswith("No.,Finding,")
    told = counted("findings", "-o", str(counted.folder / "findings.pdf"))
    assert (told.code, "claims report" in told.err) == (Exit.REFUSED, True)


def test_the_pick_list_carries_the_code_that_starts_the_scan_loop(counted: Typist) -> None:
    path = counted.folder / "pick.pdf"
    counted("pick", "11-01", "-o", str(path))
    with pypdfium2.PdfDocument(path.read_bytes()) as document:
        assert "1WT2" in document[0].get_textpage().get_text_range()


def test_the_paper_may_be_set_once_for_all(
    counted: Typist, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("KITWRIGHT_PAPER", "Letter")
    counted("bin", "show", "-o", str(counted.folder / "map.pdf"))
    with pypdfium2.PdfDocument((counted.folder / "map.pdf").read_bytes()) as document:
        assert round(document[0].get_size()[0]) == 612
    told = counted("bin", "show", "-o", str(counted.folder / "map.pdf"), "--paper", "a3")
    assert (told.code, "no paper size" in told.err) == (Exit.REFUSED, True)
