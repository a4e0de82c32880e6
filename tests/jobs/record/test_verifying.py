"""Verify names what was changed, where it stands, and what to do."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from dataclasses import replace
from datetime import timedelta
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from sqlalchemy import text

from inventory.core.errors import NoStoreError, StoreError
from inventory.core.record.chain import read_seal
from inventory.core.record.ledger import Movement
from inventory.jobs.acts import acting
from inventory.jobs.bench.undoing import history, undo
from inventory.jobs.record import verifying
from inventory.jobs.record.verifying import verify, verify_file
from inventory.store.ledger.slips import undone_slips
from inventory.store.opening import shares
from inventory.store.opening.database import open_store
from inventory.store.receiving.photo_records import photo_folder
from tests.conftest import NOW, slip
from tests.jobs.recorded import blank_page, harm, recorded
from tests.store.filled import BIN, RIB, SUPPLIER

if TYPE_CHECKING:
    from inventory.jobs.acts import Bench
    from inventory.store.opening.database import Store

FUNCTION = "FUNCTION keep_balance() RETURNS trigger LANGUAGE plpgsql AS"


def found(address: str) -> dict[str, list[str]]:
    """Return what verifying finds wrong, by what was looked at."""
    verified = verify_file(address)
    return {
        check.looked_at: [problem.what for problem in check.problems]
        for check in verified.checks
        if check.problems
    }


def test_a_sound_store_verifies_on_both_databases(store: Store) -> None:
    recorded(store)
    verified = verify(store)
    assert verified.problems == ()
    assert [check.looked_at for check in verified.checks] == [
        "pages of the file",
        "tables and their guards",
        "rows that belong together",
        "balances, from all movements",
        "acts and undoings",
        "the chain of seals",
        "photographs",
    ]
    assert [(seal.kit, seal.seal.partition(":")[0]) for seal in verified.seals] == [
        ("T2", "8"),
        ("TE", "1"),
    ]


@pytest.mark.parametrize(
    ("statement", "movement"),
    [
        ("UPDATE movement SET quantity = quantity + 1 WHERE kit = 1 AND id = 3", 3),
        ("UPDATE item SET hand = 'right' WHERE kit = 1 AND id = 1", 1),
        ("UPDATE item SET lot = 'other' WHERE kit = 1 AND id = 1", 1),
        ("UPDATE part SET key = 'T2-RU-0413' WHERE kit = 1 AND key = 'T2-RU-0412'", 1),
        ("UPDATE place SET code = 'B-70' WHERE kit = 1 AND code = 'B-07'", 3),
        ("UPDATE slip SET person = 'Bea' WHERE kit = 1 AND id = 6", 5),
        ("UPDATE slip SET note = '' WHERE kit = 1 AND id = 4", 1),
        ("UPDATE slip SET happened_on = '2026-11-24' WHERE kit = 1 AND id = 7", 6),
        ("UPDATE slip SET recorded_at = '2026-11-25T10:00:01+00:00' WHERE kit = 1 AND id = 5", 3),
        ("UPDATE movement SET chain = randomblob(32) WHERE kit = 1 AND id = 8", 8),
        ("DELETE FROM movement WHERE kit = 1 AND id = 5", 5),
        ("UPDATE movement SET slip = 5 WHERE kit = 1 AND id = 2", 2),
    ],
)
def test_the_first_changed_movement_is_named(kept: str, statement: str, movement: int) -> None:
    harm(kept, statement)
    assert found(kept)["the chain of seals"][0].startswith(
        f"movement {movement} isn't as it was sealed"
    )


def test_without_the_chain_a_changed_record_would_not_show(
    kept: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The control: nothing else that is looked at notices who acted, on what, or when."""
    monkeypatch.setattr(verifying, "broken_chain", lambda *_: [])
    harm(
        kept,
        "UPDATE part SET key = 'T2-RU-0413' WHERE kit = 1 AND key = 'T2-RU-0412'",
        "UPDATE slip SET person = 'Bea' WHERE kit = 1 AND id = 6",
        "UPDATE slip SET happened_on = '2026-11-24' WHERE kit = 1 AND id = 7",
    )
    assert found(kept) == {}


def test_movements_in_another_order_are_named(kept: str) -> None:
    harm(
        kept,
        "UPDATE movement SET id = 99 WHERE kit = 1 AND id = 3",
        "UPDATE movement SET id = 3 WHERE kit = 1 AND id = 4",
        "UPDATE movement SET id = 4 WHERE kit = 1 AND id = 99",
    )
    assert found(kept) == {
        "the chain of seals": ["movement 3 isn't as it was sealed (act 5)"],
    }


def test_a_movement_cut_off_at_the_end_shows_against_a_printed_seal(kept: str) -> None:
    seal = verify_file(kept).seals[0].seal
    harm(
        kept,
        "DELETE FROM movement WHERE kit = 1 AND slip = 8",
        "DELETE FROM slip WHERE kit = 1 AND id >= 8",
        "DELETE FROM photo",
        "UPDATE balance SET quantity = (SELECT total(q) FROM (SELECT quantity AS q FROM movement "
        "WHERE kit = 1 AND destination = place AND item = balance.item UNION ALL SELECT -quantity "
        "FROM movement WHERE kit = 1 AND origin = place AND item = balance.item)) WHERE kit = 1",
    )
    assert found(kept) == {}
    (problem,) = (p for p in verify_file(kept, [read_seal(seal)]).problems if "T2" in p.where)
    assert problem.what == "there is no movement 8: the end was cut off"


def test_a_printed_seal_shows_that_all_up_to_it_is_the_same(kept: str) -> None:
    seals = [read_seal(each.seal) for each in verify_file(kept).seals]
    assert verify_file(kept, seals).problems == ()
    (problem, _) = verify_file(kept, [(3, "0" * 16)]).problems
    assert problem.what == "movement 3 bears another seal than printed"


def test_balances_that_are_not_the_sums_are_named(kept: str) -> None:
    harm(kept, "UPDATE balance SET quantity = 40 WHERE kit = 1 AND quantity = 2")
    (words, *_) = found(kept)["balances, from all movements"]
    assert words.endswith("by the movements, 40 by the balance")


def test_pieces_below_zero_are_named(kept: str) -> None:
    harm(kept, "UPDATE place SET kind = 'bin' WHERE kit = 1 AND kind = 'supplier'")
    words = found(kept)["balances, from all movements"]
    assert "bin holds -4 x T2-RU-0412" in words


def test_a_missing_act_and_an_undoing_of_another_act_are_named(kept: str) -> None:
    harm(
        kept,
        "UPDATE slip SET id = 99 WHERE kit = 1 AND id = 9",
        "UPDATE photo SET slip = 99",
        "UPDATE slip SET undoes = 5 WHERE kit = 1 AND id = 7",
    )
    assert found(kept)["acts and undoings"] == [
        "act 9 is missing",
        "act 7 doesn't take back what act 5 moved",
    ]


def test_what_no_program_of_ours_wrote_is_named(kept: str) -> None:
    harm(kept, "UPDATE place SET kind = 'attic' WHERE kit = 1 AND kind = 'supplier'")
    assert found(kept)["the chain of seals"] == [
        "this can't be understood: 'attic' is not a valid PlaceKind"
    ]


def test_rows_that_refer_to_nothing_are_named(kept: str) -> None:
    harm(kept, "DELETE FROM part WHERE kit = 2 AND id = 1")
    words = found(kept)
    assert "1 rows refer to something that isn't there" in words["rows that belong together"]
    assert words["the chain of seals"][0].startswith("movement 1")


@pytest.mark.parametrize(
    ("statement", "words"),
    [
        ("DROP TRIGGER movement_no_update", "the guard movement_no_update is missing"),
        ("DROP INDEX ix_movement_kit_slip", "the table or index ix_movement_kit_slip is missing"),
        ("CREATE TABLE mine (a)", "the table or index mine doesn't belong here"),
        ("ALTER TABLE part ADD COLUMN mine TEXT", "the table or index part was changed"),
    ],
)
def test_tables_and_guards_of_another_form_are_named(kept: str, statement: str, words: str) -> None:
    with closing(sqlite3.connect(kept)) as db:
        db.execute(statement)
    assert words in found(kept)["tables and their guards"]


@pytest.mark.parametrize(
    ("statement", "words"),
    [
        ("DROP TRIGGER slip_no_truncate ON slip", "the guard slip_no_truncate is missing"),
        (
            "ALTER TABLE movement DISABLE TRIGGER movement_no_delete",
            "the guard movement_no_delete is switched off or was changed",
        ),
        (
            f"CREATE OR REPLACE {FUNCTION} $$ BEGIN RETURN NULL; END $$",
            "the guard movement_keeps_balance is switched off or was changed",
        ),
    ],
)
def test_guards_of_the_server_that_are_off_are_named(
    postgresql_address: str, statement: str, words: str
) -> None:
    with closing(open_store(postgresql_address)) as store:
        with store.writing() as db:
            db.execute(text(statement))
        assert [problem.what for problem in verify(store).problems] == [words]


def test_a_missing_and_a_changed_photograph_are_named(kept: str) -> None:
    (photo,) = photo_folder(kept).iterdir()
    photo.write_bytes(photo.read_bytes() + b"x")
    assert found(kept) == {"photographs": ["a photograph was changed since: crate.png"]}
    photo.unlink()
    assert found(kept) == {"photographs": ["a photograph is missing from its folder: crate.png"]}


def test_a_damaged_page_is_named_and_nothing_is_touched(kept: str) -> None:
    blank_page(kept, b"Deckel lose")  # the page of the acts
    before = Path(kept).read_bytes()
    words = found(kept)
    assert words["pages of the file"][0].startswith("the file is damaged: ")
    assert words["acts and undoings"] == ["the file is damaged: database disk image is malformed"]
    assert "balances, from all movements" not in words
    assert Path(kept).read_bytes() == before


def test_a_file_cut_off_in_the_middle_is_still_looked_at(kept: str) -> None:
    path = Path(kept)
    path.write_bytes(path.read_bytes()[:-20000])
    assert found(kept)["pages of the file"][0].startswith("the file is damaged: ")


def test_a_file_of_which_little_is_left_is_called_damaged(kept: str) -> None:
    path = Path(kept)
    path.write_bytes(path.read_bytes()[:5000])
    verified = verify_file(kept)
    assert verified.problems
    assert {problem.what.partition(": ")[0] for problem in verified.problems} == {
        "the file is damaged"
    }
    assert "restore" in verified.problems[0].remedy


def test_a_file_that_claims_to_be_far_longer_is_called_damaged(kept: str) -> None:
    path = Path(kept)
    content = bytearray(path.read_bytes())
    content[28:32] = b"\xff\xff\xff\xfe"  # pages, in the head of the file
    path.write_bytes(content)
    assert [problem.what for problem in verify_file(kept).problems] == ["the store is damaged"]


def test_a_clock_set_back_is_told_and_the_order_of_the_acts_holds(sqlite_bench: Bench) -> None:
    """Acts are ordered by their numbers; times are only what a clock said."""
    for number, minute in enumerate((5, 3, 4)):
        back = replace(slip(f"k-{number}"), recorded_at=NOW + timedelta(minutes=minute))
        with acting(sqlite_bench, "bin put", back) as act:
            act.move([Movement(RIB, 1, SUPPLIER, BIN)])
    verified = verify(sqlite_bench.store)
    assert verified.problems == ()
    (note,) = verified.notes
    assert note.startswith("a clock was set back: act 2 of kit T2 bears an earlier time")
    assert [entry.recorded.slip.key for entry in history(sqlite_bench)] == ["k-2", "k-1", "k-0"]
    undo(sqlite_bench, slip("undo"))
    with sqlite_bench.store.reading() as db:
        assert undone_slips(db, 1) == {3}


def test_a_store_on_a_network_share_is_told(
    sqlite_store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    mounts = tmp_path / "mounts"
    mounts.write_text(f"/dev/sda1 / ext4 rw 0 0\nserver:/kits {tmp_path} nfs4 rw 0 0\n")
    monkeypatch.setattr(shares, "MOUNTS", mounts)
    (note,) = verify(sqlite_store).notes
    assert note.startswith("the store lies on a network share (nfs4): let one computer")


def test_what_is_no_store_is_not_verified(tmp_path: Path) -> None:
    with pytest.raises(NoStoreError):
        verify_file(str(tmp_path / "missing"))
    (tmp_path / "list.csv").write_text("a,b")
    with pytest.raises(StoreError, match="isn't a Kitwright store"):
        verify_file(str(tmp_path / "list.csv"))
