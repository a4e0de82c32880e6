"""A supplier's own label: part, pieces, lot and packing list in one ISO/IEC 15434 envelope."""

from __future__ import annotations

import re

from inventory.core.frozen import frozen

GROUP = "\x1d"
_RECORD = "\x1e"
_END = "\x04"
START = "[)>"
_DATA_IDENTIFIERS = "06"

_ENTRY = re.compile(r"(?P<identifier>[0-9]{0,3}[A-Z])(?P<value>[^\x00-\x1f\x7f]*)")
_PIECES = re.compile(r"[0-9]{1,9}")
_READ = ("1P", "Q", "1T", "11K")
"""ANSI MH10.8.2: supplier's part number, pieces, supplier's lot, packing list."""


@frozen
class SupplierLabel:
    """What a supplier's label says of itself; an empty field is one it doesn't carry."""

    part: str
    pieces: int | None
    lot: str
    packing_list: str


def read_envelope(text: str) -> SupplierLabel | str:
    """Return the label's entries, or in words why they can't be read.

    Format 06 of ISO/IEC 15434: `[)>` RS `06` GS entry GS entry ... RS EOT, where each entry is a
    data identifier and its value. Scanners that type lose the separators; nothing is guessed then.
    """
    opening = START + _RECORD
    if not text.startswith(opening):
        return "the scanner lost the separators between the label's entries"
    parts = text.removeprefix(opening).removesuffix(_END).split(_RECORD)
    entries = [
        entry
        for part in parts
        if part.startswith(_DATA_IDENTIFIERS + GROUP)
        for entry in part.split(GROUP)[1:]
        if entry
    ]
    if not entries:
        return "the label carries no entry with a data identifier (format 06)"
    return _label(entries)


def _label(entries: list[str]) -> SupplierLabel | str:
    found: dict[str, str] = {}
    for entry in entries:
        match = _ENTRY.fullmatch(entry)
        if match is None:
            return "an entry of the label doesn't begin with a data identifier"
        identifier, value = match["identifier"], match["value"].strip()
        if identifier in _READ and found.setdefault(identifier, value) != value:
            return f"the label says two different things under {identifier}"
    pieces = found.get("Q")
    if pieces is not None and _PIECES.fullmatch(pieces) is None:
        return "the label's quantity is not a whole number of pieces"
    return SupplierLabel(
        part=found.get("1P", ""),
        pieces=None if pieces is None else int(pieces),
        lot=found.get("1T", ""),
        packing_list=found.get("11K", ""),
    )
