from __future__ import annotations

import csv
import datetime as dt
import io

import openpyxl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from python_calamine import load_workbook

from inventory.core.errors import InventoryError
from inventory.core.items import Hand
from inventory.core.receiving.findings import Addressee, Comparison, Finding, FindingKind
from inventory.documents.findings_book import findings_book, findings_table
from inventory.documents.tables import Table, from_csv, to_csv, to_xlsx
from tests.documents.pages import HEAD

FORMULAS = [
    *("=1+1", "+1", "-2", "@SUM(A1)", '=HYPERLINK("http://x")', "\tx", "'=1", "'", "＝1+1"),
    *("|cmd", "%0A", "#N/A", "#REF!", "1E5", "007", "3-4", "TRUE", "-T2-FL-0412"),
]
TEXT = st.text(st.characters(exclude_categories=["Cs"], min_codepoint=32), max_size=12)


def table(*cells: str | int | dt.date | None) -> Table:
    return Table("Try", tuple(f"c{number}" for number in range(len(cells))), (cells,))


def xlsx_row(written: bytes) -> list[object]:
    book = openpyxl.load_workbook(io.BytesIO(written))
    return [cell.value for cell in list(book.worksheets[0].rows)[1]]


@pytest.mark.parametrize("text", FORMULAS)
def test_text_that_looks_like_a_formula_stays_text_in_xlsx(text: str) -> None:
    written = to_xlsx(HEAD, [table(text)])
    cell = openpyxl.load_workbook(io.BytesIO(written)).worksheets[0]["A2"]
    assert (cell.data_type, cell.value) == ("s", text)
    second = load_workbook(io.BytesIO(written)).get_sheet_by_index(0).to_python()
    assert second[1] == [text]


@pytest.mark.parametrize("text", FORMULAS)
def test_text_that_looks_like_a_formula_stays_text_in_csv(text: str) -> None:
    written = to_csv(table(text))
    (_, (raw,)) = csv.reader(io.StringIO(written.decode("utf-8-sig"), newline=""))
    assert raw[0] not in "=+-@\t\r\n|%＝"
    assert from_csv(written)[1] == [text]


@given(st.lists(TEXT, min_size=1, max_size=4))
@settings(max_examples=60, deadline=None)
def test_csv_comes_back_as_it_was(texts: list[str]) -> None:
    assert from_csv(to_csv(table(*texts)))[1] == texts


@given(st.lists(TEXT.filter(str.strip), min_size=1, max_size=4))
@settings(max_examples=20, deadline=None)
def test_xlsx_comes_back_as_it_was(texts: list[str]) -> None:
    assert xlsx_row(to_xlsx(HEAD, [table(*texts)])) == texts


def test_numbers_dates_and_blanks_keep_their_kind() -> None:
    row = table(-5, dt.date(2026, 11, 25), None, 10**15, "x")
    assert xlsx_row(to_xlsx(HEAD, [row])) == [
        -5,
        dt.datetime(2026, 11, 25),  # noqa: DTZ001  # a day has no zone
        None,
        "1000000000000000",
        "x",
    ]
    assert from_csv(to_csv(row))[1] == ["-5", "2026-11-25", "", "1000000000000000", "x"]
    assert b"\r\n-5,2026" in to_csv(row)


def test_control_characters_become_pictures_and_line_ends_alike() -> None:
    assert from_csv(to_csv(table("a\x07b\r\nc\rd")))[1] == ["a␇b\nc\nd"]
    assert xlsx_row(to_xlsx(HEAD, [table("a\x1b[31m")])) == ["a␛[31m"]


def test_text_longer_than_a_cell_is_refused() -> None:
    with pytest.raises(InventoryError, match="32768 characters") as refusal:
        to_xlsx(HEAD, [table("x" * 32_768)])
    assert refusal.value.remedy == "Take the CSV form."


def test_the_workbook_says_whose_it_is() -> None:
    book = openpyxl.load_workbook(io.BytesIO(to_xlsx(HEAD, [table("x")])))
    about = {row[0].value: row[1].value for row in book["About"].rows}
    assert about["Store"] == "K7F3-92QD"
    assert book["Try"].freeze_panes == "A2"
    assert "store K7F3-92QD" in (book["Try"].oddFooter.left.text or "")


@pytest.mark.parametrize(
    ("title", "name"),
    [("Report 1/2: all", "Report 1 2  all"), ("x" * 40, "x" * 31), ("[]", "Table")],
)
def test_any_title_makes_a_sheet_name(title: str, name: str) -> None:
    written = to_xlsx(HEAD, [Table(title, ("a",), ())])
    assert openpyxl.load_workbook(io.BytesIO(written)).sheetnames == [name, "About"]


def test_findings_are_written_with_their_codes() -> None:
    finding = Finding(
        kind=FindingKind.SHORT,
        comparison=Comparison.COUNT_LIST,
        addressee=Addressee.SUPPLIER,
        sheet="List",
        row=14,
        crate="2",
        bag="B14",
        part="T2-FL-0412",
        printed="=T2-FL-0412",
        description="Nose rib",
        hand=Hand.LEFT,
        listed=8,
        counted=7,
        pieces=1,
        words="1 of 8 short",
    )
    assert xlsx_row(findings_book(HEAD, [finding])) == [
        *(1, "short", "supplier", "2", "B14", "=T2-FL-0412", "LEFT", "Nose rib", 8, 7, 1),
        *("1 of 8 short", "counted against the list", "List", 14, "S1", None),
    ]


def test_finding_without_a_row_or_print_shows_what_it_has() -> None:
    finding = Finding(kind=FindingKind.NOT_LISTED, part="X-1", words="not on the list")
    (row,) = findings_table([finding]).rows
    assert (row[5], row[14]) == ("X-1", None)
