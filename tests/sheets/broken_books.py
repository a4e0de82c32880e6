"""Workbooks that no office program writes: results put in by hand, a million blank rows."""

from __future__ import annotations

import io
import re
import zipfile
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from pathlib import Path

_SHEET = "xl/worksheets/sheet1.xml"
_MADE = (2026, 3, 2, 9, 0, 0)


def changed_part(content: bytes, part: str, change: Callable[[bytes], bytes]) -> bytes:
    """Return a workbook with one of its parts changed."""
    made = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as old, zipfile.ZipFile(made, "w") as new:
        for name in old.namelist():
            member = zipfile.ZipInfo(name, _MADE)
            member.compress_type = zipfile.ZIP_DEFLATED
            text = old.read(name)
            new.writestr(member, change(text) if name == part else text)
    return made.getvalue()


def with_cached_values(path: Path, values: Mapping[str, str]) -> None:
    """Give formula cells the results that a spreadsheet program keeps beside them."""

    def put(text: bytes) -> bytes:
        for cell, value in values.items():
            kind = b' t="e"' if value.startswith("#") else b""
            text = re.sub(
                rb'<c r="%b"([^>]*?)(?: t="\w+")?><f>(.*?)</f><v ?/?>(?:</v>)?</c>' % cell.encode(),
                rb'<c r="%b"\1%b><f>\2</f><v>%b</v></c>' % (cell.encode(), kind, value.encode()),
                text,
            )
        return text

    path.write_bytes(changed_part(path.read_bytes(), _SHEET, put))


def million_blank_rows(path: Path) -> None:
    """Write a list of two lines whose used range reaches down to the last row of the sheet."""
    cells = (
        '<row r="1"><c r="A1" t="inlineStr"><is><t>PART NUMBER</t></is></c>'
        '<c r="B1" t="inlineStr"><is><t>QTY</t></is></c></row>'
        '<row r="2"><c r="A2" t="inlineStr"><is><t>T2-WR-1901</t></is></c>'
        '<c r="B2"><v>4</v></c></row>'
        '<row r="3"><c r="A3" t="inlineStr"><is><t>T2-WR-1902</t></is></c>'
        '<c r="B3"><v>2</v></c></row>'
    )
    blank = "<row/>" * 1_048_573
    write_book(path, f'<dimension ref="A1:XFD1048576"/><sheetData>{cells}{blank}</sheetData>')


def write_book(path: Path, sheet: str, *, strings: str = "", flags: str = "") -> None:
    """Write the smallest workbook around the inside of one sheet's XML.

    `strings` are the `si` elements of the shared texts, `flags` attributes of the workbook.
    """
    main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
    relations = "http://schemas.openxmlformats.org/package/2006/relationships"
    office = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
    parts = {
        "_rels/.rels": f'<Relationships xmlns="{relations}"><Relationship Id="r1" '
        f'Type="{office}/officeDocument" Target="xl/workbook.xml"/></Relationships>',
        "xl/workbook.xml": f'<x:workbook xmlns:x="{main}" xmlns:r="{office}">'
        f'<x:workbookPr {flags}/><x:sheets><x:sheet name="LIST" sheetId="1" r:id="r1"/>'
        '<x:sheet name="CHART" sheetId="2" r:id="r3"/></x:sheets></x:workbook>',
        "xl/_rels/workbook.xml.rels": f'<Relationships xmlns="{relations}"><Relationship Id="r1" '
        f'Type="{office}/worksheet" Target="/xl/worksheets/sheet1.xml"/><Relationship Id="r2" '
        f'Type="{office}/sharedStrings" Target="sharedStrings.xml"/><Relationship Id="r3" '
        f'Type="{office}/chartsheet" Target="charts/c.xml"/></Relationships>',
        _SHEET: f'<worksheet xmlns="{main}">{sheet}</worksheet>',
    }
    if strings:
        parts["xl/sharedStrings.xml"] = f'<sst xmlns="{main}">{strings}</sst>'
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, text in parts.items():
            member = zipfile.ZipInfo(name, _MADE)
            member.compress_type = zipfile.ZIP_DEFLATED
            archive.writestr(member, text)
