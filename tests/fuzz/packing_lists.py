"""Spoil the sample lists at random: `python -m tests.fuzz.packing_lists --count 20000 --seed 1`.

Each spoilt file must be read with every row accounted for, or refused in words: never another
error, never a row lost, never more than a few seconds.
"""

from __future__ import annotations

import argparse
import io
import random
import time
import zipfile
from collections import Counter
from pathlib import Path
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError
from inventory.sheets.formats.reading import book_from_bytes
from inventory.sheets.packing.packing_list import packing_list_of
from tests.sheets.accounting import faults

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

ROOT = Path(__file__).parents[2]
SLOWEST = 10.0
"""Seconds that one small file may take on a busy machine."""
CELLS = (
    *("", " ", "0", "-1", "2.5", "1/2", "1e9", "x4", "4 (2L 2R)", "LH", "L&R", "AR", "REF", "B/O"),
    *("TOTAL", "Page 1 of 2", "BAG 7", "CRATE 1 OF 2", "PART NUMBER", "QTY", "=1+1", "#REF!"),
    *("T2-1-L/-R", "3-Apr", "1.00E+05", "00412", "NaN", "\u202e", "\x00", "x" * 40_000, "½", "✓"),
)


def spoil_bytes(content: bytes, chance: random.Random) -> bytes:
    """Change, cut out or put in bytes anywhere in the file."""
    spoilt = bytearray(content)
    place = chance.randrange(len(spoilt))
    match chance.randrange(4):
        case 0:
            for _ in range(chance.choice([1, 1, 2, 8, 40])):
                spoilt[chance.randrange(len(spoilt))] = chance.randrange(256)
        case 1:
            del spoilt[place:]
        case 2:
            del spoilt[place : place + chance.randrange(1, 200)]
        case _:
            spoilt[place:place] = chance.randbytes(chance.randrange(1, 60))
    return bytes(spoilt)


def spoil_part(content: bytes, chance: random.Random) -> bytes:
    """Spoil one part inside a zipped workbook, so that the archive itself stays whole."""
    if not content.startswith(b"PK"):
        return spoil_bytes(content, chance)
    made = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as old, zipfile.ZipFile(made, "w", 8) as new:
        names = old.namelist()
        chosen = chance.choice([*names, *(name for name in names if "sheet" in name)])
        for name in names:
            text = old.read(name)
            if name == chosen and text:
                text = _spoil_xml(text, chance)
            if name != chosen or chance.random() > 0.02:
                new.writestr(name, text)
    return made.getvalue()


def _spoil_xml(text: bytes, chance: random.Random) -> bytes:
    if chance.random() < 0.4:
        return spoil_bytes(text, chance)
    pieces = text.replace(b"<", b"\0<").replace(b">", b">\0").split(b"\0")
    place = chance.randrange(len(pieces))
    match chance.randrange(4):
        case 0:
            del pieces[place]
        case 1:
            pieces.insert(place, pieces[chance.randrange(len(pieces))])
        case 2:
            other = chance.randrange(len(pieces))
            pieces[place], pieces[other] = pieces[other], pieces[place]
        case _:
            if not pieces[place].startswith(b"<"):
                cell = chance.choice(CELLS)
                pieces[place] = cell.encode("utf-8", "ignore").replace(b"<", b"")
    return b"".join(pieces)


def spoil_cells(content: bytes, chance: random.Random) -> bytes:
    """Write a small list with odd cells in odd places, as delimited text."""
    rows = [["ITEM", "PART NUMBER", "DESCRIPTION", "HAND", "QTY", "U/M", "REMARKS"]]
    for number in range(chance.randrange(1, 12)):
        hand = chance.choice(["", "LH", "RH"])
        rows.append([str(number), f"T2-{chance.randrange(999):03}", "PLATE", hand, "2", "EA", ""])
    for _ in range(chance.randrange(1, 8)):
        row = chance.choice(rows)
        row[chance.randrange(len(row))] = chance.choice(CELLS)
    for _ in range(chance.randrange(3)):
        row = chance.choice(rows)
        match chance.randrange(3):
            case 0:
                rows.insert(chance.randrange(len(rows)), list(row))
            case 1:
                rows.remove(row)
            case _:
                del row[chance.randrange(len(row)) :]
                row.append("")
        rows = rows or [["x"]]
    del content
    mark = chance.choice(",;\t")
    return "\r\n".join(mark.join(row) for row in rows).encode(chance.choice(["utf-8", "utf-16"]))


def samples() -> list[tuple[str, bytes]]:
    """Return the files that are spoilt."""
    folder = ROOT / "tests" / "sheets" / "samples"
    rudder = (ROOT / "sample_kits" / "tarn_rudder" / f"packing_list.{form}" for form in FORMATS)
    return [(path.name, path.read_bytes()) for path in (*sorted(folder.iterdir()), *rudder)]


FORMATS = ("xlsx", "xls", "ods", "csv")
SPOILERS: Sequence[Callable[[bytes, random.Random], bytes]] = (
    spoil_bytes,
    spoil_part,
    spoil_part,
    spoil_cells,
)


def outcome(name: str, content: bytes) -> str:
    """Read one file; return refused, read, asked, or in words what is wrong."""
    begun = time.monotonic()
    try:
        book = book_from_bytes(name, content)
        read = packing_list_of(book)
    except InventoryError as refusal:
        return "refused" if refusal.what and refusal.remedy else f"no words: {refusal!r}"
    except Exception as error:  # noqa: BLE001 - any error at all is what this looks for
        return f"{type(error).__name__}: {error}"[:200]
    wrong = faults(book, read)
    if time.monotonic() - begun > SLOWEST:
        wrong.append("too slow")
    if wrong:
        return "; ".join(wrong)[:200]
    return "asked" if read.questions else "read"


def run(count: int, seed: int) -> tuple[Counter[str], list[tuple[str, str, bytes]]]:
    """Spoil and read so many files; return how they came out, and those that came out wrong."""
    chance = random.Random(seed)  # noqa: S311 - spoilt the same way each time
    files = samples()
    outcomes: Counter[str] = Counter()
    wrong: list[tuple[str, str, bytes]] = []
    for _ in range(count):
        name, content = chance.choice(files)
        spoil = chance.choice(SPOILERS)
        spoilt = spoil(content, chance)
        shown = "cells.csv" if spoil is spoil_cells else name
        how = outcome(shown, spoilt)
        outcomes[how] += 1
        if how not in {"refused", "read", "asked"}:
            wrong.append((how, shown, spoilt))
    return outcomes, wrong


def main() -> None:
    """Spoil files from the command line; keep those that came out wrong in a folder."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--count", type=int, default=20_000)
    options.add_argument("--seed", type=int, default=1)
    options.add_argument("--keep", type=Path, help="folder for files that came out wrong")
    given = options.parse_args()
    outcomes, wrong = run(given.count, given.seed)
    for how, times in outcomes.most_common():
        print(f"{times:>8}  {how}")  # noqa: T201 - the result
    if given.keep:
        given.keep.mkdir(parents=True, exist_ok=True)
        for number, (_, name, content) in enumerate(wrong):
            (given.keep / f"{number:03}_{name}").write_bytes(content)


if __name__ == "__main__":
    main()
