"""The shared texts and the comments of an .xlsx workbook."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING
from xml.parsers import expat

from inventory.core.errors import InventoryError
from inventory.core.frozen import frozen
from inventory.sheets.formats.texts import LONGEST_CELL, clean, leading_blanks, unescape
from inventory.sheets.formats.xlsx_styles import SEPARATOR

if TYPE_CHECKING:
    from collections.abc import Callable

    from inventory.sheets.formats.container import Container

_STRINGS_HEAD = re.compile(
    rb"""(?:\xef\xbb\xbf)?(?:<\?xml version="1\.0"(?: encoding="(?:UTF|utf)-8")?"""
    rb"""(?: standalone="(?:yes|no)")? ?\?>\s*)?<sst(?: [a-zA-Z:]+="[^"<&]*")*>"""
)
_STRINGS_TAIL = re.compile(rb"</sst>\s*")
_PLAIN_STRING = re.compile(
    r"""(?: xml:space=["']preserve["'])?>([^<\x00-\x08\x0b-\x1f\ufffe\uffff]*)</t></si>"""
)
_ENTITY = re.compile("&(amp|lt|gt|quot|apos);")
_ENTITIES = {"amp": "&", "lt": "<", "gt": ">", "quot": '"', "apos": "'"}
"""The only ones that XML knows by itself."""
MOST_TEXT = 64 * 2**20
"""Characters of text in one file; a list of 200,000 lines holds about ten million."""


@frozen
class SharedText:
    """One text of a workbook, made fit to show."""

    text: str
    part_struck: str = ""
    indent: int = 0


def shared_text(text: str, struck: str = "") -> SharedText:
    """Return a text as it is shown, with its indent and the pieces of it that are struck out."""
    if len(text) > LONGEST_CELL:
        raise InventoryError(
            f"a cell holds {len(text):,} characters, more than a cell can", remedy="Check the file"
        )
    plain = unescape(text)
    indent = leading_blanks(plain) if plain[:1].isspace() else 0
    return SharedText(clean(plain), clean(struck) if struck else "", indent)


class RichText:
    """Gathers the runs of one text while its XML goes by, those struck out apart."""

    def __init__(self, keep: Callable[[SharedText], None]) -> None:
        """Hand each finished text to `keep`."""
        self._keep = keep
        self._runs: list[str] = []
        self._struck: list[str] = []
        self._in_text = self._in_strike = self._in_phonetic = False
        self._total = 0

    def start(self, tag: str, attributes: dict[str, str]) -> None:
        """Take the start of an element inside a text."""
        if tag == "t":
            self._in_text = not self._in_phonetic
        elif tag == "strike":
            self._in_strike = attributes.get("val", "1") not in {"0", "false"}
        elif tag == "r":
            self._in_strike = False
        elif tag == "rPh":
            self._in_phonetic = True

    def characters(self, text: str) -> None:
        """Take characters, which count only inside a text run."""
        if self._in_text:
            self._runs.append(text)
            if self._in_strike:
                self._struck.append(text)

    def end(self, tag: str) -> None:
        """Take the end of an element; the end of the text hands it on."""
        if tag == "t":
            self._in_text = False
        elif tag == "r":
            self._in_strike = False
        elif tag == "rPh":
            self._in_phonetic = False
        elif tag in {"si", "is", "comment"}:
            self._finish()

    def _finish(self) -> None:
        text = "".join(self._runs)
        self._total += len(text)
        if self._total > MOST_TEXT:
            raise InventoryError(
                "it holds far more text than a packing list", remedy="Save only the list"
            )
        self._keep(shared_text(text, "".join(self._struck)))
        self._runs.clear()
        self._struck.clear()


def _parser(
    reader: RichText, note: Callable[[str, dict[str, str]], None] | None = None
) -> expat.XMLParserType:
    def start(name: str, attributes: dict[str, str]) -> None:
        tag = name.rpartition(SEPARATOR)[2]
        if note is not None:
            note(tag, attributes)
        reader.start(tag, attributes)

    parser = expat.ParserCreate(namespace_separator=SEPARATOR)
    parser.buffer_text = True
    parser.StartElementHandler = start
    parser.EndElementHandler = lambda name: reader.end(name.rpartition(SEPARATOR)[2])
    parser.CharacterDataHandler = reader.characters
    return parser


def read_strings(container: Container, part: str) -> list[SharedText]:
    """Return the shared texts of a workbook by their index; none where it has no such part."""
    if part not in container.names:
        return []
    plain = _plain_strings(container.read(part))
    if plain is not None:
        return plain
    texts: list[SharedText] = []
    container.parse(part, _parser(RichText(texts.append)))
    return texts


def _plain_strings(content: bytes) -> list[SharedText] | None:
    """Return the shared texts where each is plain and nothing else stands between them.

    None where anything needs a real XML parser: this knows what it takes to the last sign.
    """
    head, tag, body = content.partition(b"<si>")
    body, end, tail = (tag + body).rpartition(b"</si>")
    if not (_STRINGS_HEAD.fullmatch(head) and _STRINGS_TAIL.fullmatch(tail)):
        return None
    try:
        whole = (body + end).decode("utf-8")
    except UnicodeDecodeError:
        return None
    pieces = whole.split("<si><t")
    if pieces[0] or len(whole) > MOST_TEXT or "]]>" in whole:
        return None
    texts: list[SharedText] = []
    all_bare = _is_bare(whole)
    for piece in pieces[1:]:
        found = _PLAIN_STRING.fullmatch(piece)
        if found is None:
            return None
        text = found[1]
        if len(text) <= LONGEST_CELL and (all_bare or _is_bare(text)):
            indent = leading_blanks(text) if text[:1] == " " else 0
            texts.append(SharedText(" ".join(text.split()), "", indent))
            continue
        if "&" in text and _ENTITY.sub("", text).count("&"):
            return None
        texts.append(shared_text(_unescaped(text)))
    return texts


def _is_bare(text: str) -> bool:
    """Say whether each sign of a text stands for itself."""
    return text.isascii() and text.isprintable() and "&" not in text and "_x" not in text


def _unescaped(text: str) -> str:
    return _ENTITY.sub(lambda name: _ENTITIES[name[1]], text) if "&" in text else text


def read_comments(container: Container, part: str) -> dict[str, str]:
    """Return the comments of a sheet by the name of their cell."""
    texts: list[SharedText] = []
    cells: list[str] = []

    def note(tag: str, attributes: dict[str, str]) -> None:
        if tag == "comment":
            cells.append(attributes.get("ref", ""))

    container.parse(part, _parser(RichText(texts.append), note))
    return {cell: text.text for cell, text in zip(cells, texts, strict=True) if text.text}
