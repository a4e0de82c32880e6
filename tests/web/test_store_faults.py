"""The store locked, read-only, gone or with its clock set back, while phones are served."""

from __future__ import annotations

import shutil
import sqlite3
from contextlib import closing, contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from inventory.jobs.acts import Bench
from inventory.jobs.bench.undoing import history
from inventory.jobs.kits import begin_kit
from inventory.jobs.record.backup import back_up
from inventory.jobs.record.restoring import restore
from inventory.jobs.record.verifying import verify
from inventory.store.opening import engine
from inventory.store.opening.database import open_store
from tests.conftest import NOW
from tests.people import reachable_folder, without_rights
from tests.web.conftest import House, Phone, served, stock

if TYPE_CHECKING:
    from collections.abc import Iterator

PAGES = ("/T2/", "/T2/scan")


@pytest.fixture(autouse=True)
def _impatient(monkeypatch: pytest.MonkeyPatch) -> None:
    """Wait a moment for a lock, not ten seconds."""
    monkeypatch.setitem(engine.PRAGMAS, "busy_timeout", 50)


@pytest.fixture
def house_to_all(migrated_file: Path) -> Iterator[House]:
    with reachable_folder() as folder:
        path = Path(shutil.copy(migrated_file, folder / "store.kitwright"))
        with closing(open_store(str(path))) as store:
            house = served(Bench(store, begin_kit(store, "Tarn T2", "T2", NOW)))
            stock(house)
            yield house


@contextmanager
def locked(address: str, how: str) -> Iterator[None]:
    with closing(sqlite3.connect(address, isolation_level=None)) as other:
        other.execute(f"BEGIN {how}")
        yield
        other.execute("ROLLBACK")


def put(phone: Phone, slip: str) -> tuple[int, str]:
    answer = phone.act("put", slip=slip, part="SPAR", pieces="1", **{"from": "A", "to": "B"})
    return answer.status_code, " ".join(answer.text.split())


def acts(house: House) -> int:
    return len(history(house.bench))


@pytest.mark.parametrize("how", ["IMMEDIATE", "EXCLUSIVE"])
def test_an_act_while_another_program_writes_is_refused_in_words_and_done_later(
    stocked_house: House, phone: Phone, how: str
) -> None:
    before = acts(stocked_house)
    with locked(stocked_house.bench.store.address, how):
        status, page = put(phone, "slip-locked")
    assert status == 503
    assert "another window or program is writing" in page
    assert acts(stocked_house) == before
    assert put(phone, "slip-locked")[0] == 303
    assert acts(stocked_house) == before + 1


def test_pages_are_shown_while_another_program_writes(stocked_house: House, phone: Phone) -> None:
    with locked(stocked_house.bench.store.address, "IMMEDIATE"):
        assert [phone.get(path).status_code for path in PAGES] == [200] * len(PAGES)


def test_a_store_that_can_only_be_read_shows_pages_and_refuses_acts(house_to_all: House) -> None:
    phone, before = house_to_all.phone(), acts(house_to_all)
    path = Path(house_to_all.bench.store.address)
    house_to_all.bench.store.close()
    path.chmod(0o444)
    path.parent.chmod(0o555)
    with without_rights():
        assert [phone.get(each).status_code for each in PAGES] == [200] * len(PAGES)
        status, page = put(phone, "slip-read-only")
        house_to_all.bench.store.close()
    assert status == 503
    assert "can only be read here" in page
    path.chmod(0o600)
    path.parent.chmod(0o755)
    assert acts(house_to_all) == before


def test_a_store_that_is_gone_says_so(stocked_house: House, phone: Phone) -> None:
    stocked_house.bench.store.close()
    Path(stocked_house.bench.store.address).unlink()
    for path in ("/T2/", "/api/v1/T2"):
        answer = phone.get(path)
        assert answer.status_code == 503
        assert "there is no store here, or it can't be opened" in answer.text


def test_an_act_after_the_clock_was_set_back_is_recorded_and_verifying_tells(
    stocked_house: House, phone: Phone
) -> None:
    assert put(phone, "slip-first")[0] == 303
    stocked_house.clock.later(hours=-5)
    again = stocked_house.phone("other phone")
    assert put(again, "slip-set-back")[0] == 303
    verified = verify(stocked_house.bench.store)
    assert verified.problems == ()
    assert any("clock" in note for note in verified.notes)


def test_a_backup_restored_under_a_running_server_takes_the_acts_that_follow(
    stocked_house: House, phone: Phone, tmp_path: Path
) -> None:
    store = stocked_house.bench.store
    made = back_up(store, NOW, tmp_path / "backups")
    assert put(phone, "slip-later")[0] == 303
    restored = restore(made.path, store.address, NOW)
    assert [slip.slip.key for _, slip in restored.later] == ["slip-later"]
    assert put(phone, "slip-after")[0] == 303
    with closing(open_store(store.address)) as fresh:
        keys = [entry.recorded.slip.key for entry in history(Bench(fresh, stocked_house.bench.kit))]
    assert "slip-after" in keys
    assert "slip-later" not in keys
