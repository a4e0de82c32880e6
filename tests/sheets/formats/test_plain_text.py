"""Delimited and aligned text: the same rows as any list."""

from __future__ import annotations

import pytest

from inventory.core.errors import InventoryError
from inventory.sheets.formats.plain_text import decode, delimiter_of
from inventory.sheets.formats.reading import book_from_bytes
from inventory.sheets.formats.texts import leading_blanks
from inventory.sheets.packing.packing_list import packing_list_of


@pytest.mark.parametrize(
    ("content", "text"),
    [
        ("½,T2\n".encode("utf-8-sig"), "½,T2\n"),
        ("½,T2\n".encode("utf-16"), "½,T2\n"),
        ("½,T2\n".encode(), "½,T2\n"),
        ("½,T2\n".encode("cp1252"), "½,T2\n"),
        ("PART,QTY\n".encode("utf-16-le"), "PART,QTY\n"),
        ("PART,QTY\n".encode("utf-16-be"), "PART,QTY\n"),
        (b"A,B", "A,B"),
        (b"AB", "AB"),
    ],
)
def test_encoding_is_told_by_mark_or_content(content: bytes, text: str) -> None:
    assert decode(content, "a.csv").text == text


@pytest.mark.parametrize(
    "content",
    [b"a,b\0\x01", b"\xff\xfea", b"\x81\x8d\x8f\x90\x9d"],
    ids=["zero byte", "half a sign", "no sign of Windows 1252"],
)
def test_text_that_cannot_be_decoded_is_refused(content: bytes) -> None:
    with pytest.raises(InventoryError):
        decode(content, "a.csv")


@pytest.mark.parametrize(
    ("text", "delimiter"),
    [
        ("PART,QTY\nT2-1,4\n", ","),
        ("PART;QTY\nT2-1;1,5\nT2-2;2,5\n", ";"),
        ("PART\tQTY\nT2-1\t4\n", "\t"),
        ("PART|QTY\nT2-1|4\n", "|"),
        ("sep=;\nPART;QTY\n", ";"),
        ("one word\n", ""),
        ("", ""),
        ('"PART;QTY\n', ""),
    ],
)
def test_delimiter_is_told(text: str, delimiter: str) -> None:
    assert delimiter_of(text) == delimiter


def test_rows_of_text_are_counted_as_a_spreadsheet_shows_them() -> None:
    text = 'sep=,\nPART,QTY\n\n"T2-1\nX",4\n  T2-2,5,,\n\n'
    (sheet,) = book_from_bytes("a.csv", text.encode()).sheets
    assert [(each.number, each.texts) for each in sheet.rows] == [
        (1, ()),
        (2, ("PART", "QTY")),
        (3, ()),
        (4, ("T2-1\nX", "4")),
        (5, ("T2-2", "5")),
    ]
    assert sheet.rows[4].mark(0).indent == 2


def test_quote_that_is_never_closed_names_its_line() -> None:
    with pytest.raises(InventoryError, match="line 3: a quote"):
        book_from_bytes("a.csv", b'PART,QTY\nT2-1,4\nT2-2,"5\nT2-3,6\n')


def test_line_wider_than_any_list_is_refused() -> None:
    with pytest.raises(InventoryError, match="wider than any list"):
        book_from_bytes("a.csv", b"PART,QTY\n" + b"x," * 300 + b"x\n")


PASTED = """\
> WHERRY LANE FORGE
> PACKING LIST        Order: WL-300
>
> ITEM  PART NUMBER  DESCRIPTION            HAND QTY U/M REMARKS
> SUB-KIT 1 POST
>    1  T2-WR-0101   POST, LOWER, WITH CAP         4 EA
>    2  T2-WR-0102   BLADE                  LH     2 EA  B/O
>                    drilled on assembly
> Please count within ten days of the arrival.
>    3  T2-WR-0103   TILLER ARM, LONG             12 EA
"""


def test_pasted_text_is_cut_where_blanks_line_up() -> None:
    book = book_from_bytes("pasted", PASTED.encode())
    read = packing_list_of(book)
    assert [row.row_class for row in read.rows] == [
        *("head", "head", "blank", "head", "heading", "part", "part", "note", "note", "part"),
    ]
    assert [(line.part, line.hand, line.ordered, line.shipped) for line in read.lines] == [
        ("T2-WR-0101", "none", 4, 4),
        ("T2-WR-0102", "left", 2, 0),
        ("T2-WR-0103", "none", 12, 12),
    ]
    assert read.lines[0].sub_kit == "1 POST"


def test_text_without_columns_is_kept_as_notes() -> None:
    read = packing_list_of(book_from_bytes("mail.txt", b"Dear class,\n\nthe crate follows.\n"))
    assert [row.row_class for row in read.rows] == ["head", "blank", "note"]
    assert read.lines == ()


def test_blanks_before_a_text_count_tabs_as_four() -> None:
    assert leading_blanks("\t x") == 5
    assert leading_blanks("\n  x") == 2
