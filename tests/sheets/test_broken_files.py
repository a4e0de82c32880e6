"""Files that are no list, or a broken one: one clear answer each, in bounded time and memory."""

from __future__ import annotations

import io
import struct
import zipfile
from pathlib import Path

import pytest

from inventory.core.errors import InventoryError
from inventory.sheets.formats.container import Container
from inventory.sheets.formats.reading import book_from_bytes, read_book
from tests.sheets.broken_books import changed_part, write_book

SAMPLES = Path(__file__).parent / "samples"
LIST = (SAMPLES / "f02_header_repeated_on_every_page.xlsx").read_bytes()
OLE = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
SHEET = "xl/worksheets/sheet1.xml"


def refusal(content: bytes, name: str = "list.xlsx") -> InventoryError:
    with pytest.raises(InventoryError) as found:
        book_from_bytes(name, content)
    assert found.value.remedy
    return found.value


def archive(**parts: bytes) -> bytes:
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as new:
        for name, content in parts.items():
            new.writestr(name.replace("__", "/").replace("_xml", ".xml"), content)
    return made.getvalue()


@pytest.mark.parametrize(
    ("content", "name", "what"),
    [
        (b"", "list.xlsx", "the file is empty"),
        (b" \r\n\t", "list.csv", "the file is empty"),
        (LIST, "~$list.xlsx", "lock file"),
        (LIST[: len(LIST) // 2], "list.xlsx", "cut off or damaged"),
        (LIST[:40], "list.xlsx", "cut off or damaged"),
        (b"\x89PNG\r\n\x1a\n", "list.xlsx", "a PNG picture"),
        (b"\xff\xd8\xff\xe0", "list.xlsx", "a JPEG picture"),
        (b"{\\rtf1}", "list.xls", "a text document (RTF)"),
        (b"SQLite format 3\0", "list.xlsx", "a database"),
        (b"<html><table></table></html>", "list.xls", "a web page"),
        (b"\xef\xbb\xbf<!DOCTYPE html>", "list.xlsx", "a web page"),
        (b'<?xml version="1.0"?><Workbook/>', "list.xls", "an XML document"),
        (OLE + "EncryptedPackage".encode("utf-16-le"), "list.xlsx", "protected by a password"),
        (OLE + "WordDocument".encode("utf-16-le"), "list.xls", "a text document"),
        (OLE + b"\0" * 600, "list.xls", "damaged"),
        (b"\x01\x02\0\x03", "list.csv", "neither a spreadsheet nor text"),
    ],
)
def test_file_that_is_no_list_is_named(content: bytes, name: str, what: str) -> None:
    assert what in refusal(content, name).what


@pytest.mark.parametrize(
    ("parts", "what"),
    [
        ({"hello_xml": b"x"}, "without a spreadsheet inside"),
        ({"word__document_xml": b"x"}, "a text document"),
        ({"xl__workbook.bin": b"x"}, "binary workbook"),
        ({"mimetype": b"application/vnd.oasis.opendocument.text"}, "a text document"),
        ({"mimetype": b"application/vnd.oasis.opendocument.spreadsheet"}, "is missing"),
    ],
)
def test_archive_without_a_spreadsheet_is_named(parts: dict[str, bytes], what: str) -> None:
    assert what in refusal(archive(**parts)).what


def test_text_with_a_workbooks_name_is_read_as_text() -> None:
    book = book_from_bytes("list.xlsx", b"PART NUMBER,QTY\r\nT2-1,4\r\n")
    assert book.form == "text"
    assert book.sheets[0].rows[1].texts == ("T2-1", "4")


def test_workbook_with_a_text_files_name_is_read_as_a_workbook() -> None:
    assert book_from_bytes("list.csv", LIST).form == "xlsx"


def test_zip_bomb_is_refused_before_it_unpacks(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("inventory.sheets.formats.container.MOST_UNPACKED", 1 << 20)
    bomb = archive(xl__workbook_xml=b"\0" * (3 << 20))
    assert len(bomb) < 1 << 13
    assert "unpacks to far more" in refusal(bomb).what


def test_dense_part_is_refused_while_it_unpacks() -> None:
    blown = changed_part(LIST, SHEET, lambda text: text + b" " * (21 << 20))
    assert "unpacks to far more" in refusal(blown).what


def test_many_large_parts_are_refused_together(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("inventory.sheets.formats.container.MOST_UNPACKED", 14_000)
    blown = changed_part(LIST, SHEET, lambda text: text + b" " * 9_000)
    assert "unpacks to far more" in refusal(blown).what


def test_part_longer_than_it_says_is_refused() -> None:
    made = bytearray(changed_part(LIST, SHEET, lambda text: text))
    directory = made.rindex(b"PK\x01\x02", 0, made.rindex(SHEET.encode()))
    made[directory + 24 : directory + 28] = struct.pack("<I", 10)
    assert "not as long as it says" in refusal(bytes(made)).what


def test_two_parts_of_one_name_are_refused() -> None:
    made = io.BytesIO(LIST)
    with pytest.warns(UserWarning, match="Duplicate"), zipfile.ZipFile(made, "a") as new:
        new.writestr(SHEET, b"<worksheet/>")
    assert "two parts of the same name" in refusal(made.getvalue()).what


def test_encrypted_part_is_refused() -> None:
    made = bytearray(LIST)
    place = made.index(b"PK\x01\x02")
    made[place + 8] |= 1
    assert "password" in refusal(bytes(made)).what


def test_unknown_packing_is_refused() -> None:
    made = bytearray(LIST)
    place = made.rindex(b"PK\x01\x02", 0, made.rindex(b"xl/workbook.xml"))
    made[place + 10] = 12
    assert "packed in a way" in refusal(bytes(made)).what


def test_part_that_lies_outside_the_file_is_refused() -> None:
    made = bytearray(LIST)
    place = made.rindex(b"PK\x01\x02", 0, made.rindex(b"xl/workbook.xml"))
    made[place + 42 : place + 46] = struct.pack("<I", len(made) - 4)
    assert "cut off or damaged" in refusal(bytes(made)).what


def test_spoilt_packed_bytes_are_refused() -> None:
    container = Container(LIST, "list.xlsx")
    made = bytearray(LIST)
    place = made.index(SHEET.encode()) + len(SHEET)
    made[place : place + 40] = b"\xff" * 40
    assert "cut off or damaged" in refusal(bytes(made)).what
    assert container.read("xl/workbook.xml").startswith(b"<")


@pytest.mark.parametrize("part", [SHEET, "xl/workbook.xml", "xl/styles.xml"])
def test_entities_are_refused(part: str) -> None:
    entity = b'<!DOCTYPE x [<!ENTITY a "aaaa">]>'
    made = changed_part(LIST, part, lambda text: text.replace(b"<", entity + b"<", 1))
    assert "entities" in refusal(made).what


def test_broken_xml_is_refused() -> None:
    made = changed_part(LIST, SHEET, lambda text: text[: len(text) // 2])
    assert "damaged" in refusal(made).what


def test_missing_sheet_is_refused() -> None:
    made = changed_part(
        LIST, "xl/_rels/workbook.xml.rels", lambda text: text.replace(b"sheet1", b"x")
    )
    assert "is missing" in refusal(made).what


def test_reference_to_no_text_is_refused(tmp_path: Path) -> None:
    sheet = '<sheetData><row r="1"><c r="A1" t="s"><v>9</v></c></row></sheetData>'
    write_book(tmp_path / "a.xlsx", sheet, strings="<si><t>T2-1</t></si>")
    assert "damaged" in refusal((tmp_path / "a.xlsx").read_bytes()).what


@pytest.mark.parametrize(
    ("rows", "what"),
    [
        ('<row r="2"/><row r="2"/>', "doesn't stand where it says"),
        ('<row r="1048577"/>', "doesn't stand where it says"),
        ('<row r="1"><c r="XFD1"><v>1</v></c></row>', "further right than 256"),
        ('<row r="1"><c r="A1"><v>1</v></c><c r="A1"><v>2</v></c></row>', "A1 comes twice"),
        ('<row r="1"><c r="?1"><v>1</v></c></row>', "damaged"),
        (
            f'<row r="1"><c r="A1" t="str"><v>{"x" * 40_000}</v></c></row>',
            "40,000 characters",
        ),
    ],
)
def test_sheet_that_contradicts_itself_is_refused(rows: str, what: str, tmp_path: Path) -> None:
    write_book(tmp_path / "a.xlsx", f"<sheetData>{rows}</sheetData>")
    with pytest.raises(InventoryError, match=what):
        read_book(tmp_path / "a.xlsx")


def test_too_much_text_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("inventory.sheets.formats.xlsx_strings.MOST_TEXT", 10)
    assert "far more text" in refusal(LIST).what


def test_folder_missing_and_huge_files_are_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with pytest.raises(InventoryError, match="not a file"):
        read_book(tmp_path)
    with pytest.raises(InventoryError, match="can't be opened"):
        read_book(tmp_path / "none.xlsx")
    monkeypatch.setattr("inventory.sheets.formats.reading.MOST_BYTES", 10)
    (tmp_path / "a.csv").write_text("PART,QTY\nT2-1,4\n")
    with pytest.raises(InventoryError, match="larger than"):
        read_book(tmp_path / "a.csv")


def test_macros_and_links_are_said_and_not_run() -> None:
    made = io.BytesIO(LIST)
    with zipfile.ZipFile(made, "a") as new:
        new.writestr("xl/vbaProject.bin", b"x")
        new.writestr("xl/externalLinks/externalLink1.xml", b"<x/>")
    remarks = book_from_bytes("list.xlsm", made.getvalue()).remarks
    assert [remark.split(";")[0] for remark in remarks] == [
        "the workbook holds macros",
        "some cells take their value from other workbooks",
    ]
