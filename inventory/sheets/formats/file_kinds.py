"""What a file is by its first bytes, whatever its name says."""

from __future__ import annotations

import io
import zipfile
from enum import StrEnum

from inventory.core.errors import InventoryError


class Kind(StrEnum):
    """Kinds of file that can be read as a list."""

    XLSX = "xlsx"
    XLS = "xls"
    ODS = "ods"
    TEXT = "text"
    PDF = "pdf"


_OLE = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
_PROTECTED = "EncryptedPackage".encode("utf-16-le")
_OTHERS = (
    (b"\x89PNG", "a PNG picture"),
    (b"\xff\xd8\xff", "a JPEG picture"),
    (b"GIF8", "a GIF picture"),
    (b"II*\x00", "a TIFF picture"),
    (b"MM\x00*", "a TIFF picture"),
    (b"{\\rtf", "a text document (RTF)"),
    (b"\x1f\x8b", "a gzip archive"),
    (b"7z\xbc\xaf", "a 7z archive"),
    (b"Rar!", "a RAR archive"),
    (b"SQLite format 3", "a database"),
    (b"\x7fELF", "a program"),
    (b"MZ", "a program"),
)
_SPREADSHEET = "Save the list as .xlsx, .ods or .csv and read that"


def kind_of(name: str, content: bytes) -> Kind:
    """Return the kind of a file by its content; raises `InventoryError` for what holds no list."""
    if name.startswith("~$"):
        raise _refusal(name, "it is the lock file of an open spreadsheet", "Close it there first")
    if not content.strip(b"\0 \t\r\n"):
        raise _refusal(name, "the file is empty", "Copy or download it again")
    if content.startswith(b"PK"):
        return _of_archive(name, content)
    if content.startswith(_OLE):
        return _of_ole(name, content)
    if b"%PDF-" in content[:1024]:
        return Kind.PDF
    other = _other(content)
    if other:
        raise _refusal(name, f"it is {other}, not a list", _SPREADSHEET)
    return Kind.TEXT


def _other(content: bytes) -> str:
    """Return in words what else a file is; empty where it may be text."""
    for start, what in _OTHERS:
        if content.startswith(start):
            return what
    head = content[:2048].lstrip(b"\xef\xbb\xbf \t\r\n").lower()
    if head.startswith((b"<!doctype html", b"<html", b"<table")):
        return "a web page"
    return "an XML document" if head.startswith(b"<?xml") else ""


def _refusal(name: str, what: str, remedy: str) -> InventoryError:
    return InventoryError(f"{what}; nothing was read", where=name, remedy=remedy)


def _of_archive(name: str, content: bytes) -> Kind:
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as archive:
            parts = set(archive.namelist())
            kind = archive.open("mimetype").read(80) if "mimetype" in parts else b""
    except Exception as cause:
        # A broken archive fails in many ways, each with another error of the library's.
        remedy = "Copy or download it again"
        raise _refusal(name, "the file is cut off or damaged", remedy) from cause
    if b"opendocument.spreadsheet" in kind:
        return Kind.ODS
    if any(part.startswith("word/") for part in parts) or b"opendocument.text" in kind:
        raise _refusal(name, "it is a text document, not a spreadsheet", _SPREADSHEET)
    if any(part.endswith(".bin") and part.startswith("xl/work") for part in parts):
        raise _refusal(name, "it is a binary workbook (.xlsb)", _SPREADSHEET)
    return Kind.XLSX


def _of_ole(name: str, content: bytes) -> Kind:
    if _PROTECTED in content:
        raise _refusal(name, "it is protected by a password", "Save it without a password")
    if "WordDocument".encode("utf-16-le") in content:
        raise _refusal(name, "it is a text document, not a spreadsheet", _SPREADSHEET)
    return Kind.XLS
