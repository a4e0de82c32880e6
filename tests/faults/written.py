"""Acts whose writing is traced for power cuts, and what must be true after each cut.

python -m tests.faults.written KIND FOLDER TIMES
"""

from __future__ import annotations

import os
import sqlite3
import sys
from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING

from inventory.core.errors import NoStoreError
from inventory.core.lists.packing import PackingLine, PackingList
from inventory.jobs.acts import Bench, acting
from inventory.jobs.kits import choose_kit
from inventory.jobs.lists.unpacking import take_in
from inventory.jobs.record.backup import back_up
from inventory.jobs.record.restoring import restore
from inventory.jobs.record.verifying import verify_file
from inventory.jobs.stores import open_or_begin, open_store
from tests.faults.workshop import NOW, Found, look, make_workshop, slip_of

if TYPE_CHECKING:
    from collections.abc import Callable

STORE = "kits.kitwright"
LINES = 100


def answer() -> None:
    os.write(1, b"OK\n")


def import_lists(folder: Path, times: int) -> None:
    """Take in one list after another."""
    with closing(open_store(str(folder / STORE))) as store:
        bench = Bench(store, choose_kit(store, ""))
        for number in range(times):
            lines = tuple(
                PackingLine(
                    sheet="1", row=row, part=f"P-{row}", printed=f"P-{row}", ordered=1, shipped=1
                )
                for row in range(LINES)
            )
            listed = PackingList(source="l", sha256=f"{number:064}", lines=lines)
            take_in(bench, listed, slip_of(f"list {number}"))
            answer()


def judge_lists(folder: Path, shown: int) -> str:
    """Every list is there whole; each that was acknowledged is there."""
    with closing(sqlite3.connect(folder / STORE)) as db:
        sound = db.execute("PRAGMA integrity_check").fetchone()[0] == "ok"
        lists = db.execute("SELECT count(*) FROM packing_list").fetchone()[0]
        lines = db.execute("SELECT count(*) FROM line").fetchone()[0]
    if not sound or lines != LINES * lists:
        return "torn or damaged"
    return "lost" if lists < shown else ""


def prepare_restore(folder: Path) -> None:
    """Make a backup elsewhere, and act once more after it."""
    with closing(open_store(str(folder / STORE))) as store:
        back_up(store, NOW, folder.parent / "first")
        with acting(Bench(store, choose_kit(store, "")), "issue", slip_of("after")):
            pass


def restore_it(folder: Path, _: int) -> None:
    """Put the backup back."""
    (backup,) = (folder.parent / "first").glob("*.kitwright")
    restore(backup, str(folder / STORE), NOW)
    answer()


def judge_restored(folder: Path, shown: int) -> str:
    """The store is the old one or the restored one; restored, the old one lies beside it."""
    now = _acts(folder / STORE)
    if now.wrong or now.issued not in {0, 1} or (shown and now.issued):
        return "torn or damaged"
    if now.issued == 0:
        aside = [_acts(path) for path in folder.glob("kits-aside-*.kitwright")]
        return "" if [each.issued for each in aside] == [1] else "the old store is lost"
    return ""


def _acts(path: Path) -> Found:
    found = look(path)
    only_acts = found.wrong.startswith(" torn: 1 acts, 0 movements, 0 in the step")
    return Found(found.issued) if only_acts else found


def begin(folder: Path, _: int) -> None:
    """Begin a store."""
    open_or_begin(str(folder / "new.kitwright")).close()
    answer()


def judge_begun(folder: Path, shown: int) -> str:
    """There is a whole store, or none and one can be begun."""
    address = str(folder / "new.kitwright")
    try:
        open_store(address).close()
    except NoStoreError:
        if shown:
            return "lost"
        open_or_begin(address).close()
    return "doesn't verify" if verify_file(address).problems else ""


RUNS: dict[str, tuple[Callable[[Path], object], Callable[[Path, int], object]]] = {
    "import": (lambda _: None, import_lists),
    "restore": (prepare_restore, restore_it),
    "begin": (lambda _: None, begin),
}
JUDGES = {"import": judge_lists, "restore": judge_restored, "begin": judge_begun}


def prepared(kind: str, folder: Path) -> None:
    """Make the workshop, and what the act needs besides."""
    make_workshop(folder / STORE)
    RUNS[kind][0](folder)


if __name__ == "__main__":
    RUNS[sys.argv[1]][1](Path(sys.argv[2]), int(sys.argv[3]))
