"""What is killed, and what must be true of the store afterwards."""

from __future__ import annotations

import os
import shutil
import sqlite3
import uuid
from contextlib import closing
from datetime import UTC, datetime
from itertools import count
from typing import TYPE_CHECKING

from inventory.core.lists.packing import PackingLine, PackingList
from inventory.jobs.acts import Bench
from inventory.jobs.kits import choose_kit
from inventory.jobs.lists.unpacking import take_in
from inventory.jobs.record.backup import back_up
from inventory.jobs.record.restoring import checked_backup, restore
from inventory.jobs.record.verifying import verify_file
from inventory.jobs.stores import open_store
from inventory.store.opening.database import SCHEMA, create_store
from inventory.store.record.backup_files import backups_in
from inventory.store.settings import STORE_ID, set_setting
from inventory.web.serving import Serving
from tests.faults import scanner
from tests.faults.workshop import NOW, PART, STEP, look, slip_of
from tests.web.conftest import HOST, Clock, House, ask

if TYPE_CHECKING:
    from pathlib import Path

    from inventory.store.opening.database import Connection

STORE = "kits.kitwright"
LINES = 800


def prepare(folder: Path, kind: str) -> None:
    """Note what the store holds before the first kill; make what the kind needs besides."""
    (folder / "issued").write_text("0")
    (folder / "lists").write_text("0")
    if kind == "migrate":
        _make_old(folder)
    if kind == "restore":
        with closing(open_store(str(folder / STORE))) as store:
            made = back_up(store, NOW, folder / "first")
        (folder / "first.name").write_text(made.path.name)


def _make_old(folder: Path) -> None:
    def fill(db: Connection) -> None:
        set_setting(db, STORE_ID, "OLD")

    create_store(str(folder / "old.kitwright"), fill, schema=4).close()


def _count(folder: Path, name: str) -> int:
    return int((folder / name).read_text())


def scan(folder: Path, early: bool) -> None:  # noqa: FBT001
    """Scan without end."""
    off = ["early"] if early else []
    scanner.main(str(folder / STORE), "100000", *off)


def scan_by_phone(folder: Path, _: bool) -> None:  # noqa: FBT001
    """Scan without end through the pages that phones use."""
    with closing(open_store(str(folder / STORE))) as store:
        clock = Clock()
        serving = Serving(store=store, hosts=frozenset({HOST, "127.0.0.1"}), now=clock)
        phone = House(Bench(store, choose_kit(store, "")), serving, clock).phone()
        before = ""
        for number in count():
            key = f"scan-{uuid.uuid4().hex}"
            text = STEP if not number else PART
            told = ask(phone, "scan", slip=key, text=text, at=number * 5000, after=before).json()
            if told.get("answer") == "OK":
                os.write(1, b"OK\n")
            before = key


def judge_scan(folder: Path, answers: int) -> str:
    """Every OK that was shown is stored; at most one act more is."""
    found = look(folder / STORE)
    more = found.issued - _count(folder, "issued")
    (folder / "issued").write_text(str(found.issued))
    if found.wrong:
        return "torn or damaged"
    if more < answers:
        return "lost"
    return "" if more <= answers + 1 else "more stored than scanned"


def take_in_list(folder: Path, early: bool) -> None:  # noqa: FBT001
    """Take in a list of many lines, another one each time."""
    number = _count(folder, "lists")
    lines = tuple(
        PackingLine(sheet="1", row=row, part=f"P-{row}", printed=f"P-{row}", ordered=1, shipped=1)
        for row in range(LINES)
    )
    with closing(open_store(str(folder / STORE))) as store:
        bench = Bench(store, choose_kit(store, ""))
        if early:
            os.write(1, b"OK\n")
        take_in(
            bench,
            PackingList(source="l", sha256=f"{number:064}", lines=lines),
            slip_of(f"l{number}"),
        )
        os.write(1, b"OK\n")


def judge_list(folder: Path, answers: int) -> str:
    """A list is there with all its lines, or not at all."""
    with closing(sqlite3.connect(folder / STORE)) as db:
        lists = db.execute("SELECT count(*) FROM packing_list").fetchone()[0]
        lines = db.execute("SELECT count(*) FROM line").fetchone()[0]
        sound = db.execute("PRAGMA integrity_check").fetchone()[0] == "ok"
    more = lists - _count(folder, "lists")
    (folder / "lists").write_text(str(lists))
    if not sound or lines != LINES * lists:
        return "torn or damaged"
    return "lost" if more < answers else ""


def back_up_now(folder: Path, _: bool) -> None:  # noqa: FBT001
    """Make a backup."""
    with closing(open_store(str(folder / STORE))) as store:
        back_up(store, datetime.now(UTC), folder / "b")
        os.write(1, b"OK\n")


def judge_backup(folder: Path, answers: int) -> str:
    """Whatever is named as a backup is one, and the store is as it was."""
    there = backups_in(folder / "b") if (folder / "b").exists() else []
    named = list((folder / "b").glob("*.kitwright")) if there else []
    for path in named:
        checked_backup(path)
    wrong = bool(look(folder / STORE).wrong)
    missing = answers > len(there)
    shutil.rmtree(folder / "b", ignore_errors=True)
    return "torn or damaged" if wrong else "lost" if missing else ""


def restore_now(folder: Path, _: bool) -> None:  # noqa: FBT001
    """Put the first backup back."""
    backup = folder / "first" / (folder / "first.name").read_text()
    restore(backup, str(folder / STORE), datetime.now(UTC))
    os.write(1, b"OK\n")


def judge_restore(folder: Path, _: int) -> str:
    """The store is the old one or the restored one, whole."""
    wrong = look(folder / STORE).wrong
    sound = not verify_file(str(folder / STORE)).problems
    for path in folder.glob("kits-aside-*"):
        path.unlink()
    return "" if sound and not wrong else "torn or damaged"


def migrate_now(folder: Path, _: bool) -> None:  # noqa: FBT001
    """Bring an older store up to date."""
    with closing(open_store(str(folder / "old.kitwright"))):
        os.write(1, b"OK\n")


def judge_migrated(folder: Path, answers: int) -> str:
    """The store has the old schema or the new one, whole; a new old one lies there after that."""
    path = folder / "old.kitwright"
    with closing(sqlite3.connect(path)) as db:
        schema = db.execute("PRAGMA user_version").fetchone()[0]
        sound = db.execute("PRAGMA integrity_check").fetchone()[0] == "ok"
    if schema not in {4, SCHEMA} or not sound or (answers and schema != SCHEMA):
        return "torn or damaged"
    shutil.rmtree(folder / "backups", ignore_errors=True)
    wrong = verify_file(str(path)).problems
    path.unlink()
    shutil.rmtree(folder / "backups", ignore_errors=True)
    _make_old(folder)
    return "torn or damaged" if wrong else ""
