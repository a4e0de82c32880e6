"""How long a command takes before and besides its work: `python -m tests.benchmarks.start_up`.

Floors: `python -c pass`, the import of Typer alone, and a script of a dozen lines that asks the
same store one question through Typer and SQLAlchemy Core. Ours runs as pip installs it: a script
that imports the door and calls it.
"""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

from tests.benchmarks.measure import (
    PYTHON,
    Result,
    installed,
    main,
    pair_of,
    ratio,
    spawned,
    together,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from tests.benchmarks.measure import Spent

DOOR = "import sys\nfrom inventory.__main__ import main\nif __name__ == '__main__':\n    main()\n"
BARE = """
import typer

app = typer.Typer(rich_markup_mode=None, pretty_exceptions_enable=False, add_completion=False)

@app.command()
def where(store: str, part: str) -> None:
    import sqlalchemy as sa
    table = sa.table
    part_table = table("part", sa.column("kit"), sa.column("id"), sa.column("key"))
    item = table("item", sa.column("kit"), sa.column("id"), sa.column("part"))
    balance = table("balance", *map(sa.column, ("kit", "item", "place", "quantity")))
    engine = sa.create_engine("sqlite:///" + store)
    p, i, b = part_table.c, item.c, balance.c
    with engine.connect() as db:
        asked = (
            sa.select(p.key, b.place, b.quantity)
            .join_from(balance, item, (i.kit == b.kit) & (i.id == b.item))
            .join(part_table, (p.kit == i.kit) & (p.id == i.part))
            .where(b.kit == 1, p.key == part)
        )
        for row in db.execute(asked):
            print(*row)

@app.command()
def other(number: int = 0) -> None:
    pass

app()
"""
BARE_ACT = """
import typer

app = typer.Typer(rich_markup_mode=None, pretty_exceptions_enable=False, add_completion=False)

@app.command()
def issue(store: str, part: str) -> None:
    import sqlalchemy as sa
    parts = sa.table("part", sa.column("code"), sa.column("on_hand"))
    moves = sa.table("moved", sa.column("code"), sa.column("quantity"), sa.column("at"))
    engine = sa.create_engine("sqlite:///" + store)

    @sa.event.listens_for(engine, "connect")
    def settings(driver, _record):
        driver.isolation_level = None
        driver.execute("pragma journal_mode=delete")
        driver.execute("pragma synchronous=extra")

    @sa.event.listens_for(engine, "begin")
    def begin(db):
        db.exec_driver_sql("begin immediate")

    with engine.begin() as db:
        db.execute(sa.select(parts.c.on_hand).where(parts.c.code == part)).scalar_one()
        db.execute(sa.insert(moves).values(code=part, quantity=1, at="2026-11-25T10:00:00Z"))
        less = parts.c.on_hand - 1
        db.execute(sa.update(parts).where(parts.c.code == part).values(on_hand=less))

@app.command()
def other(number: int = 0) -> None:
    pass

app()
"""
MAKE_BARE = """
import sqlite3, sys
with sqlite3.connect(sys.argv[1]) as db:
    db.execute("create table part (code text primary key, on_hand int)")
    db.execute("create table moved (id integer primary key, code text, quantity int, at text)")
    db.executemany("insert into part values (?, 1000)", [(f"F-{n:04}",) for n in range(1000)])
"""
QUERIES = (
    "where T2-RU-0412",
    "short",
    "ready",
    "pick 13-03",
    "bin show",
    "plan show",
    "packing-list show",
    "history",
    "kit list",
)
VERSION, HELP, QUERY, ACT = (1.5, 3.0), (1.3, 2.0), (1.25, 1.8), (1.15, 1.8)
"""Goal and alarm of each (performance figures of the project, section on goals)."""
MOST_MIB = (65.0, 100.0)


def measured(quick: bool) -> Iterator[Result]:  # noqa: FBT001
    """Measure starting, asking and acting as whole processes."""
    rounds = 5 if quick else 11
    with tempfile.TemporaryDirectory() as made:
        folder = installed(Path(made))
        for name, text in (("kitwright", DOOR), ("bare", BARE), ("act", BARE_ACT)):
            folder.joinpath(f"{name}.py").write_text(text, encoding="utf-8")
        yield from _starting(folder, rounds)
        _ours(folder, f"demo --into {folder / 'demo'}")()
        yield from _asking(folder, rounds, QUERIES[:3] if quick else QUERIES)
        yield from _acting(folder, rounds)


def _ours(folder: Path, line: str) -> Callable[[], Spent]:
    store = ["--store", str(folder / "demo" / "demo.kitwright")]
    command = [PYTHON, str(folder / "kitwright.py"), *line.split(), *store]
    return spawned(command, PYTHONPATH=str(folder))


def _starting(folder: Path, rounds: int) -> Iterator[Result]:
    door = str(folder / "kitwright.py")
    rows = together(
        [
            spawned([PYTHON, "-c", "pass"]),
            spawned([PYTHON, door, "--version"], PYTHONPATH=str(folder)),
            spawned([PYTHON, "-c", "import typer"]),
            spawned([PYTHON, door, "--help"], PYTHONPATH=str(folder)),
        ],
        rounds,
    )
    yield ratio("--version / python -c pass", pair_of(rows[0], rows[1]), *VERSION)
    yield ratio("--help / import typer", pair_of(rows[2], rows[3]), *HELP)


def _asking(folder: Path, rounds: int, lines: tuple[str, ...]) -> Iterator[Result]:
    store = str(folder / "demo" / "demo.kitwright")
    bare = spawned([PYTHON, str(folder / "bare.py"), "where", store, "T2-RU-0412"])
    floor, *ours = together([bare, *(_ours(folder, line) for line in lines)], rounds)
    for text, one in zip(lines, ours, strict=True):
        yield ratio(f"{text} / bare Typer and Core", pair_of(floor, one), *QUERY)
    peak = max((one[-1].peak, text) for text, one in zip(lines, ours, strict=True))
    yield Result(
        what="most memory of these questions",
        figure=peak[0],
        goal=MOST_MIB[0],
        alarm=MOST_MIB[1],
        unit="MiB",
        detail=f"{peak[1]}; the bare script takes {floor[-1].peak:.0f} MiB",
    )


def _acting(folder: Path, rounds: int) -> Iterator[Result]:
    store = str(folder / "bare.db")
    spawned([PYTHON, "-c", MAKE_BARE, store])()
    bare = spawned([PYTHON, str(folder / "act.py"), "issue", store, "F-0042"])
    put = "bin put T2-RU-0412 1 --from opening --to RACK-1 --hand left"
    pair = pair_of(*together([bare, _ours(folder, put)], rounds))
    yield ratio("one act (bin put) / bare Typer and Core", pair, *ACT)


if __name__ == "__main__":
    sys.exit(main(__doc__, measured))
