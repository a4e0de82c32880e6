"""Backup, restore, verify, export and rebuild as they are typed."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from inventory.cli.exits import Exit
from inventory.core.record.slips import Slip
from inventory.jobs.acts import Bench, acting
from inventory.jobs.kits import choose_kit
from inventory.jobs.record.backup import back_up
from inventory.jobs.stores import open_store
from tests.jobs.recorded import photograph

if TYPE_CHECKING:
    from tests.cli.conftest import Typist


PUT = ("bin", "put", "--from", "opening", "--to", "B-01")


@pytest.fixture
def stocked(typed: Typist) -> Typist:
    """Begin a kit with eight ribs in a bin."""
    typed("kit", "new", "Tarn T2", "--code", "T2")
    typed("bin", "add", "B-01")
    put(typed)
    return typed


def put(typed: Typist, pieces: str = "8") -> None:
    said = typed(*PUT, "T2-RU-0412", pieces, "--hand", "left")
    assert said.code == Exit.DONE


def store_of(typed: Typist) -> Path:
    return typed.folder / "kits.kitwright"


def test_a_backup_is_made_listed_and_restored(stocked: Typist) -> None:
    made = stocked("backup")
    path = Path(made.out.splitlines()[0].removeprefix("backup made and read back whole: "))
    assert (made.code, path.parent) == (Exit.DONE, stocked.folder / "backups")
    assert path.is_file()
    put(stocked, "1")
    done = stocked("restore", str(path))
    assert done.code == Exit.DONE
    assert "not in it: 1 act after this backup" in done.out
    listed = stocked("backup", "--list", "--json")
    assert [each["file"] for each in listed.content] == [path.name]
    assert path.name in stocked("backup", "--list").out.replace("\n", "").replace(" ", "")
    where = stocked("where", "T2-RU-0412", "--json")
    assert [lies["quantity"] for lies in where.content["lying"]] == [8]


def test_where_backups_go_is_kept(stocked: Typist) -> None:
    folder = stocked.folder / "stick"
    said = stocked("backup", "--to", str(folder), "--keep-to", "--every", "50", "--json")
    assert Path(said.content["path"]).parent == folder
    assert said.content["note"]["rows"]["slip"] == 2
    refused = stocked("backup", "--every", "7")
    assert (refused.code, refused.err.splitlines()[0]) == (
        Exit.REFUSED,
        "error: after 7 acts can't be",
    )


def test_a_sound_store_verifies_and_shows_its_seal(stocked: Typist) -> None:
    said = stocked("verify")
    assert said.code == Exit.DONE
    lines = said.out.splitlines()
    assert [line for line in lines if line.startswith("NOT OK")] == []
    seal = lines[-1].removeprefix("seal of T2: ")
    assert seal.startswith("1:")
    assert "prove nothing against the owner" in " ".join(said.err.split())
    put(stocked)
    assert stocked("verify", "--seal", seal).code == Exit.DONE
    assert stocked("verify", "--seal", seal.replace(seal[-1], "x")).code == Exit.REFUSED


def test_a_store_that_was_changed_is_told_with_exit_code_4(stocked: Typist) -> None:
    with closing(sqlite3.connect(store_of(stocked), isolation_level=None)) as db:
        db.execute("DROP TRIGGER movement_no_update")
        db.execute("UPDATE movement SET quantity = 9")
    said = stocked("verify")
    assert said.code == Exit.FINDINGS
    assert "NOT OK  the chain of seals\n        kit T2: movement 1 isn't as it was" in said.out
    assert "NOT OK  tables and their guards" in said.out
    wrong = [check["looked_at"] for check in stocked("verify", "--json").content["checks"]
             if check["problems"]]  # fmt: skip
    assert wrong == [
        "tables and their guards",
        "balances, from all movements",
        "the chain of seals",
    ]


def test_many_problems_of_one_kind_are_counted(stocked: Typist) -> None:
    for _ in range(20):
        put(stocked)
    with closing(sqlite3.connect(store_of(stocked), isolation_level=None)) as db:
        for number in range(15):
            db.execute(f"CREATE TABLE mine_{number} (a)")
    assert "        and 3 more" in stocked("verify").out.splitlines()


def test_an_export_rebuilds_the_same_store(stocked: Typist) -> None:
    out = stocked.folder / "record"
    said = stocked("export", "-o", str(out))
    # kit, part, item, two places, two acts, one movement, one setting
    assert (said.code, said.out) == (
        Exit.DONE,
        f"9 rows and 0 photographs: {out}\n",
    )
    again = str(stocked.folder / "again.kitwright")
    built = stocked("--store", again, "rebuild", str(out))
    assert built.code == Exit.DONE
    second = stocked.folder / "second"
    assert stocked("--store", again, "export", "-o", str(second)).code == Exit.DONE
    record = "record.jsonl"
    assert (second / record).read_bytes() == (out / record).read_bytes()
    refused = stocked("--store", again, "rebuild", str(out))
    assert refused.code == Exit.NO_STORE


def test_what_reads_of_a_damaged_store_is_saved(stocked: Typist) -> None:
    path = store_of(stocked)
    content = bytearray(path.read_bytes())
    page = content.index(b"opening") // 4096 * 4096  # where the places are
    content[page : page + 4096] = bytes(4096)
    path.write_bytes(content)
    said = stocked("export", "--what-reads", "-o", str(stocked.folder / "saved"))
    assert said.code == Exit.DONE
    assert "lost: of place nothing could be read, and all of it may be lost" in said.err
    assert stocked("verify").code == Exit.FINDINGS


def test_clearing_away_and_a_clock_set_back_are_told(stocked: Typist) -> None:
    now = datetime(2026, 11, 25, 10, tzinfo=UTC)
    with closing(open_store(str(store_of(stocked)))) as store:
        for second in range(10):
            back_up(store, now.replace(second=second))
        bench = Bench(store, choose_kit(store, ""))
        for key, year in (("k-1", 2026), ("k-2", 2025)):
            early = Slip(key=key, recorded_at=now.replace(year=year), happened_on=now.date())
            with acting(bench, "hold", early):
                pass
    assert "1 older backups were cleared away" in stocked("backup").err
    assert "a clock was set back: act " in stocked("verify").err


def test_more_acts_than_a_screen_holds_are_counted(stocked: Typist) -> None:
    made = stocked("backup", "--json").content["path"]
    for _ in range(14):
        put(stocked, "1")
    said = stocked("restore", made).out.splitlines()
    assert said[2] == "not in it: 14 acts after this backup"
    assert said[-1] == "  and 2 more"


def test_photographs_that_are_missing_are_named(stocked: Typist) -> None:
    with closing(open_store(str(store_of(stocked)))) as store:
        photograph(Bench(store, choose_kit(store, "")))
    made = Path(stocked("backup", "--json").content["path"])
    (photo,) = (stocked.folder / "kits.kitwright.photos").iterdir()
    photo.write_bytes(b"other")
    (made.parent / "photos" / photo.name).unlink()
    told = f"photograph {photo.name} is missing"
    assert told in stocked("restore", str(made)).err
    assert told in stocked("export", "-o", str(stocked.folder / "out")).err


def test_a_missing_store_has_its_own_exit_code(typed: Typist) -> None:
    for words in (["backup"], ["verify"], ["export", "-o", "x"]):
        assert typed(*words).code == Exit.NO_STORE
