"""How long a packing list takes from file to store: `python -m tests.benchmarks.importing`.

Floor: the fastest reader of values there is (python-calamine) and a bare `executemany` into a
table with one text index, one durable commit, as a process of its own. Ours: the command
`packing-list read` on an empty store, which also keeps strike-through, hidden rows and number
formats, classes every row, checks hands and amounts, and keeps every source row.
"""

from __future__ import annotations

import random
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

from tests.benchmarks.measure import (
    PYTHON,
    ROOT,
    Result,
    Spent,
    installed,
    main,
    pair_of,
    ratio,
    spawned,
    together,
)
from tests.sheets.broken_books import write_book

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

SMALL, LARGE = 20_000, 200_000
DOOR = "import sys\nfrom inventory.__main__ import main\nif __name__ == '__main__':\n    main()\n"
FLOOR = """
import sqlite3, sys
import python_calamine

path, store = sys.argv[1:]
rows = iter(python_calamine.CalamineWorkbook.from_path(path).get_sheet_by_index(0).iter_rows())
next(rows)

def shown(value):
    return "" if value is None else " ".join(str(value).split())

def lines():
    for crate, line, part, words, hand, pieces, unit, remark in rows:
        yield (shown(crate), int(line), shown(part).upper(), shown(words), shown(hand),
               int(pieces), shown(unit), shown(remark))

db = sqlite3.connect(store)
db.execute("pragma journal_mode=delete")
db.execute("pragma synchronous=extra")
db.executescript(
    "create table line(id integer primary key, crate text, line integer, part text, words text,"
    "hand text, pieces integer, unit text, remark text); create index by_part on line(part)"
)
with db:
    db.executemany(
        "insert into line(crate,line,part,words,hand,pieces,unit,remark) values(?,?,?,?,?,?,?,?)",
        lines(),
    )
"""
HEAD = ("Crate", "Line", "Part number", "Description", "Hand", "Qty", "Unit", "Remark")
NOUNS = "RIB NOSE|SPAR WEB|SKIN INBD|BRACKET|STIFFENER|HINGE PIN|BULKHEAD|GUSSET|DOUBLER|SHIM"
PLACES = "INBOARD|OUTBOARD|FWD|AFT|UPPER|LOWER"
HARDWARE = ("AN3-5A", "AN3-6A", "AN960-10", "MS20470AD4-4", "MS20470AD4-5", "AN365-1032A")


def write_list(path: Path, lines: int) -> None:
    """Write a list of so many lines, its texts shared as office programs keep them.

    Nothing in it needs a question.
    """
    chance = random.Random(7)
    places: dict[str, int] = {}
    rows = [_row(1, HEAD, places)]
    for number in range(1, lines + 1):
        hardware = chance.random() < 0.3
        part = chance.choice(HARDWARE) if hardware else f"T2-FL-{chance.randrange(10**6):06}"
        words = f"{chance.choice(NOUNS.split('|'))} {chance.randrange(40)}"
        cells = (
            f"C{number % 12 + 1:02}", number, part, f"{words} {chance.choice(PLACES.split('|'))}",
            "" if hardware else chance.choice(["LH", "RH", "", ""]),
            chance.choice([1, 1, 2, 2, 4, 12, 100]), "EA",
            chance.choice(["", "", "FILM ON", "see drawing 12"]),
        )  # fmt: skip
        rows.append(_row(number + 1, cells, places))
    strings = "".join(f"<si><t>{text}</t></si>" for text in places)
    write_book(path, f"<sheetData>{''.join(rows)}</sheetData>", strings=strings)


def _row(number: int, cells: Sequence[str | int], places: dict[str, int]) -> str:
    made = []
    for letter, value in zip("ABCDEFGH", cells, strict=True):
        if isinstance(value, int):
            made.append(f'<c r="{letter}{number}"><v>{value}</v></c>')
        elif value:
            place = places.setdefault(value, len(places))
            made.append(f'<c r="{letter}{number}" t="s"><v>{place}</v></c>')
    return f'<row r="{number}" spans="1:8">{"".join(made)}</row>'


def fresh(store: Path, empty: Path, measured: Callable[[], Spent]) -> Callable[[], Spent]:
    """Return how to measure a process that begins with an empty store each time."""

    def again() -> Spent:
        store.unlink(missing_ok=True)
        if empty.exists():
            shutil.copyfile(empty, store)
        return measured()

    return again


def ways(folder: Path, door: Path, path: Path) -> list[Callable[[], Spent]]:
    """Return how to measure the floor and ours on one list."""
    floor, empty, store = folder / "floor.db", folder / "empty.kitwright", folder / "ours.kitwright"
    place = str(door.parent)
    if not empty.exists():
        begin = [PYTHON, str(door), "--store", str(empty), "kit", "new", "T2"]
        spawned(begin, PYTHONPATH=place)()
    ours = [PYTHON, str(door), "--store", str(store), "packing-list", "read", str(path)]
    bare = [PYTHON, "-c", FLOOR, str(path), str(floor)]
    return [
        fresh(floor, folder / "none", spawned(bare)),
        fresh(store, empty, spawned(ours, PYTHONPATH=place)),
    ]


def measured(quick: bool) -> Iterator[Result]:  # noqa: FBT001  as measure.main calls it
    """Yield each figure as it is measured."""
    small, large = (2_000, 20_000) if quick else (SMALL, LARGE)
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        door = installed(folder / "installed") / "door.py"
        door.write_text(DOOR, encoding="utf-8")
        for lines in (small, large):  # each in a process of its own, so that this one stays small
            made = [PYTHON, "-m", __spec__.name, "--write", str(lines), str(folder)]
            subprocess.run(made, check=True, cwd=ROOT)
        floors, ours = together(ways(folder, door, folder / f"{small}.xlsx"), 3 if quick else 5)
        few = pair_of(floors, ours)
        yield ratio(f"read and store {small:,} lines, whole process", few, 5, 15)
        floors, ours = together(ways(folder, door, folder / f"{large}.xlsx"), 3, warm=0)
        many = pair_of(floors, ours)
        yield ratio(f"read and store {large:,} lines, whole process", many, 5, 15)
        yield Result(
            what=f"memory at {large:,} lines",
            figure=many.ours.peak / many.floor.peak,
            goal=2.5,
            alarm=4,
            detail=f"{many.ours.peak:.0f} MiB against {many.floor.peak:.0f}",
            spread=many.spread,
        )
        yield Result(
            what=f"growth from {small:,} to {large:,} lines",
            figure=many.ours.cpu / few.ours.cpu,
            goal=11,
            alarm=14,
            detail=f"{many.ours.cpu:.2f} s against {few.ours.cpu:.2f} s",
            spread=max(few.spread, many.spread),
        )


if __name__ == "__main__":
    if sys.argv[1:2] == ["--write"]:
        write_list(Path(sys.argv[3]) / f"{sys.argv[2]}.xlsx", int(sys.argv[2]))
        sys.exit()
    sys.exit(main(__doc__, measured))
