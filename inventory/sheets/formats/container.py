"""The parts of a zipped workbook, read with a bound on every size and no trust in the headers."""

from __future__ import annotations

import io
import zipfile
import zlib
from typing import TYPE_CHECKING
from xml.parsers import expat

from inventory.core.errors import InventoryError

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

MOST_UNPACKED = 256 * 2**20
"""Bytes that all parts read of one file may unpack to; 200,000 lines need about 70 MiB."""
MOST_RATIO = 100
"""Times a large part may grow on unpacking; lists of 500 to 50,000 lines grow 9 to 15 times."""
_RATIO_FROM = 20 * 2**20
_SLICE = 1 << 16
_DAMAGED = "Download or copy the file again, or open it in a spreadsheet program and save it anew"
_BOMB = "Open it in a spreadsheet program and save only the list to a new file"


class Container:
    """The zip archive behind an .xlsx or .ods file: part names, and their bytes in slices."""

    def __init__(self, content: bytes, name: str) -> None:
        """Open the directory of the archive; refuse one that is cut off or made to mislead."""
        self._content = content
        self._name = name
        self._unpacked: dict[str, int] = {}
        try:
            with zipfile.ZipFile(io.BytesIO(content)) as archive:
                members = archive.infolist()
        except (zipfile.BadZipFile, ValueError, OverflowError, NotImplementedError) as cause:
            raise self._refusal("the file is cut off or damaged", _DAMAGED) from cause
        self._members = {member.filename: member for member in members}
        self._check(members)

    def _check(self, members: list[zipfile.ZipInfo]) -> None:
        if len(self._members) != len(members):
            raise self._refusal("it holds two parts of the same name", _DAMAGED)
        if any(member.flag_bits & 1 for member in members):
            raise self._refusal("it is protected by a password", "Save it without a password")
        if sum(member.file_size for member in members) > 2 * MOST_UNPACKED:
            raise self._refusal("it unpacks to far more than a packing list needs", _BOMB)

    def _refusal(self, what: str, remedy: str) -> InventoryError:
        return InventoryError(f"{what}; nothing was read", where=self._name, remedy=remedy)

    @property
    def names(self) -> Mapping[str, object]:
        """The names of all parts."""
        return self._members

    def slices(self, part: str) -> Iterator[bytes]:
        """Yield the bytes of one part; refuse when they are more than declared or bearable."""
        member = self._members.get(part)
        if member is None:
            raise self._refusal(f"the part {part[:60]!r} of the workbook is missing", _DAMAGED)
        given = 0
        try:
            for piece in self._inflated(member):
                given += len(piece)
                self._unpacked[part] = max(given, self._unpacked.get(part, 0))
                self._check_growth(given, member)
                yield piece
        except zlib.error as cause:
            raise self._refusal("the file is cut off or damaged", _DAMAGED) from cause
        if given != member.file_size:
            raise self._refusal("a part of it is not as long as it says", _DAMAGED)

    def _check_growth(self, given: int, member: zipfile.ZipInfo) -> None:
        too_dense = given > _RATIO_FROM and given > MOST_RATIO * max(member.compress_size, 1)
        if sum(self._unpacked.values()) > MOST_UNPACKED or too_dense:
            raise self._refusal("it unpacks to far more than a packing list needs", _BOMB)

    def _inflated(self, member: zipfile.ZipInfo) -> Iterator[bytes]:
        start = self._start(member)
        packed = memoryview(self._content)[start : start + member.compress_size]
        if len(packed) != member.compress_size:
            raise self._refusal("the file is cut off or damaged", _DAMAGED)
        if member.compress_type == zipfile.ZIP_STORED:
            yield from (bytes(packed[at : at + _SLICE]) for at in range(0, len(packed), _SLICE))
            return
        if member.compress_type != zipfile.ZIP_DEFLATED:
            raise self._refusal("it is packed in a way that spreadsheets don't use", _DAMAGED)
        unpacker = zlib.decompressobj(-zlib.MAX_WBITS)
        for at in range(0, len(packed), _SLICE):
            piece = unpacker.decompress(packed[at : at + _SLICE], _SLICE * 16)
            yield piece
            while unpacker.unconsumed_tail:
                yield unpacker.decompress(unpacker.unconsumed_tail, _SLICE * 16)
        yield unpacker.flush()

    def _start(self, member: zipfile.ZipInfo) -> int:
        header = self._content[member.header_offset : member.header_offset + 30]
        if len(header) != 30 or header[:4] != b"PK\x03\x04":  # noqa: PLR2004 - the local header
            raise self._refusal("the file is cut off or damaged", _DAMAGED)
        lengths = int.from_bytes(header[26:28], "little") + int.from_bytes(header[28:30], "little")
        return member.header_offset + 30 + lengths

    def read(self, part: str) -> bytes:
        """Return the bytes of one part whole."""
        return b"".join(self.slices(part))

    def guarded(self, parser: expat.XMLParserType) -> expat.XMLParserType:
        """Make a parser refuse document types, and so entities."""
        parser.StartDoctypeDeclHandler = self._doctype
        return parser

    def parse(self, part: str, parser: expat.XMLParserType) -> None:
        """Feed one part to an XML parser that refuses document types and entities."""
        self.guarded(parser)
        try:
            for piece in self.slices(part):
                parser.Parse(piece, False)  # noqa: FBT003 - the parser's own signature
            parser.Parse(b"", True)  # noqa: FBT003
        except expat.ExpatError as cause:
            raise self._refusal("the workbook's own text is damaged", _DAMAGED) from cause

    def _doctype(self, *_: object) -> None:
        raise self._refusal("it holds XML entities, which no spreadsheet writes", _BOMB)
