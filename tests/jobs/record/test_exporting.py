"""Export and rebuild: plain text out, an identical store back."""

from __future__ import annotations

import csv
import io
import json
from contextlib import closing
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from inventory.core.errors import InventoryError, NoStoreError, StoreError
from inventory.core.items import Hand, Item, State
from inventory.core.places import Place, PlaceKind
from inventory.core.record.ledger import MOST, Movement
from inventory.documents.tables import from_csv
from inventory.jobs.acts import Bench, acting
from inventory.jobs.kits import begin_kit
from inventory.jobs.record.exporting import RECORD, export, export_what_reads
from inventory.jobs.record.rebuilding import rebuild
from inventory.jobs.record.verifying import verify
from inventory.store.opening.database import SCHEMA, begin_store, create_store, open_store
from inventory.store.receiving.photo_records import photo_folder
from inventory.store.record.state import LEFT_OUT
from inventory.store.tables.whole import metadata
from tests.conftest import NOW, slip
from tests.jobs.recorded import as_csv, blank_page, recorded, state
from tests.store.filled import BIN, RIB, SUPPLIER, fill
from tests.store.test_faults import largest_file

if TYPE_CHECKING:
    from inventory.jobs.record.record_tables import RecordTable
    from inventory.store.opening.database import Store
    from tests.postgres import Server


def record_of(store: Store, folder: Path) -> bytes:
    return (export(store, folder, as_csv).folder / RECORD).read_bytes()


def test_an_export_rebuilds_an_identical_store_and_is_the_same_again(
    store: Store, tmp_path: Path
) -> None:
    bench = Bench(store, begin_kit(store, "Tarn T2", "T2", NOW))
    fill(bench)  # a row in every table
    first = record_of(store, tmp_path / "one")
    tables = {json.loads(line).get("table") for line in first.splitlines()[1:-1]}
    assert tables == set(metadata.tables) - LEFT_OUT
    built = rebuild(tmp_path / "one", str(tmp_path / "new.kitwright"))
    with closing(built.store) as new:
        assert state(new) == state(store) == built.foot.sha256
        assert record_of(new, tmp_path / "two") == first


def test_a_store_goes_to_the_server_and_back_unchanged(
    sqlite_store: Store, postgresql: Server, tmp_path: Path
) -> None:
    recorded(sqlite_store)
    first = record_of(sqlite_store, tmp_path / "one")
    address = postgresql.empty()
    with closing(rebuild(tmp_path / "one", address).store) as there:
        assert verify(there).problems == ()
        assert record_of(there, tmp_path / "two") == first
    with closing(rebuild(tmp_path / "two", str(tmp_path / "new.kitwright")).store) as back:
        assert verify(back).problems == ()
        assert record_of(back, tmp_path / "three") == first
    postgresql.drop(address)


def test_photographs_travel_with_the_export(exported: Path, tmp_path: Path) -> None:
    with closing(rebuild(exported, str(tmp_path / "new.kitwright")).store) as new:
        (photo,) = photo_folder(new.address).iterdir()
        assert photo.name.partition(".")[0] == sha256(photo.read_bytes()).hexdigest()


def test_an_export_can_be_read_with_a_text_editor(exported: Path) -> None:
    lines = (exported / RECORD).read_text(encoding="utf-8").splitlines()
    assert lines[0] == f'{{"kitwright export":1,"schema":{SCHEMA}}}'
    movement = next(json.loads(line) for line in lines if '"table":"movement"' in line)
    assert list(movement) == [
        *("table", "kit", "id", "slip", "item", "quantity", "origin", "destination", "chain"),
    ]
    rows = "".join(f"{line}\n" for line in lines[1:-1]).encode()
    assert json.loads(lines[-1])["sha256"] == sha256(rows).hexdigest()
    assert "nanometres" in (exported / "README.txt").read_text()


def test_people_get_tables_in_which_text_stays_text(exported: Path) -> None:
    assert sorted(path.name for path in exported.glob("*.csv")) == [
        f"{kit}-{name}.csv"
        for kit in ("T2", "TE")
        for name in ("movements", "needs", "packing-list", "stock")
    ]
    rows = from_csv((exported / "T2-stock.csv").read_bytes())
    assert rows[0] == ["kind", "place", "part", "hand", "length (nm)", "lot", "state", "quantity"]
    assert ["bin", "B-07", "T2-RU-0412", "left", "0", "Lös 7", "new", "2"] in rows
    text = (exported / "T2-movements.csv").read_bytes().decode("utf-8-sig")
    assert "issue (undone)" in {row[2] for row in csv.reader(io.StringIO(text))}


def test_an_export_is_for_its_owner_alone(exported: Path) -> None:
    assert exported.stat().st_mode & 0o777 == 0o700
    files = [path for path in exported.rglob("*") if path.is_file()]
    assert {path.stat().st_mode & 0o777 for path in files} == {0o600}


def test_an_export_writes_over_nothing(exported: Path, sqlite_store: Store) -> None:
    before = sorted(exported.parent.iterdir())
    with pytest.raises(InventoryError, match="there is something here already"):
        export(sqlite_store, exported, as_csv)
    assert sorted(exported.parent.iterdir()) == before
    empty = exported.parent / "empty"
    empty.mkdir()
    export(sqlite_store, empty, as_csv)
    assert (empty / RECORD).exists()


def test_an_export_that_fails_leaves_nothing(sqlite_store: Store, tmp_path: Path) -> None:
    begin_kit(sqlite_store, "Tarn T2", "T2", NOW)

    def fails(_: RecordTable) -> bytes:
        raise OSError(28, "No space left on device")

    with pytest.raises(StoreError, match="could not be written: No space left on device"):
        export(sqlite_store, tmp_path / "record", fails)
    assert [path.name for path in tmp_path.iterdir()] == ["store.kitwright"]


def test_rebuild_writes_over_no_store(exported: Path, sqlite_address: str) -> None:
    with pytest.raises(StoreError, match="already"):
        rebuild(exported, sqlite_address)


def test_of_a_damaged_store_all_that_reads_is_exported(sqlite_bench: Bench, tmp_path: Path) -> None:
    for number in range(6):
        with acting(sqlite_bench, "bin put", slip(f"k-{number}")) as act:
            act.move([Movement(RIB, 1, SUPPLIER, BIN)] * 100)
    whole = record_of(sqlite_bench.store, tmp_path / "whole").splitlines()
    sqlite_bench.store.close()
    chain = next(json.loads(line)["chain"] for line in whole if b'"id":300,' in line)
    blank_page(sqlite_bench.store.address, bytes.fromhex(chain))
    before = Path(sqlite_bench.store.address).read_bytes()
    made = export_what_reads(sqlite_bench.store.address, tmp_path / "saved")
    saved = (tmp_path / "saved" / RECORD).read_bytes().splitlines()
    assert set(saved[1:-1]) < set(whole)
    # A leaf of 4,096 bytes holds some 70 movements; all but those of one leaf come out.
    assert 500 < made.foot.rows["movement"] < 600
    assert made.foot.rows["slip"] == 6
    assert made.foot.lost.startswith("of movement ")
    assert Path(sqlite_bench.store.address).read_bytes() == before
    with pytest.raises(InventoryError, match="saved from a damaged store"):
        rebuild(tmp_path / "saved", str(tmp_path / "new.kitwright"))


def test_what_reads_of_a_sound_store_is_all_of_it(sqlite_store: Store, tmp_path: Path) -> None:
    recorded(sqlite_store)
    made = export_what_reads(sqlite_store.address, tmp_path / "saved")
    assert (made.foot.lost, made.foot.sha256) == ("", state(sqlite_store))
    with pytest.raises(NoStoreError):
        export_what_reads(str(tmp_path / "missing"), tmp_path / "x")


texts = st.text(st.characters(exclude_categories=["Cs", "Cc"]), max_size=8)


acts = st.lists(
    st.tuples(
        texts.filter(bool),
        texts,
        st.lists(
            st.tuples(
                st.builds(
                    Item,
                    st.sampled_from(["P-1", "P-2", "ß½"]),
                    st.sampled_from(list(Hand)),
                    texts,
                    st.integers(0, MOST),
                    st.sampled_from(list(State)),
                ),
                st.integers(1, MOST),
            ),
            max_size=3,
        ),
    ),
    max_size=4,
    unique_by=lambda act: act[0],
)


@given(acts=acts)
@settings(
    max_examples=6, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
def test_every_record_comes_back_from_its_export(
    acts: list[tuple[str, str, list[tuple[Item, int]]]], tmp_path_factory: pytest.TempPathFactory
) -> None:
    folder = tmp_path_factory.mktemp("any")
    with closing(begin_store(str(folder / "a"))) as store:
        bench = Bench(store, begin_kit(store, "Tarn T2", "T2", NOW))
        for key, note, moved in acts:
            with acting(bench, "bin put", slip(key, note=note)) as act:
                place = Place(PlaceKind.BIN, note)
                act.move([Movement(item, n, SUPPLIER, place) for item, n in moved])
        first = record_of(store, folder / "one")
        with closing(rebuild(folder / "one", str(folder / "b")).store) as new:
            assert state(new) == state(store)
            assert record_of(new, folder / "two") == first


def test_a_store_without_a_kit_is_exported_too(sqlite_address: str, tmp_path: Path) -> None:
    with closing(open_store(sqlite_address)) as store:
        assert export(store, tmp_path / "record", as_csv).foot.rows == {"setting": 1}


def test_a_store_without_a_row_is_rebuilt_too(tmp_path: Path) -> None:
    with closing(create_store(str(tmp_path / "a"), lambda _: None)) as store:
        first = record_of(store, tmp_path / "one")
    with closing(rebuild(tmp_path / "one", str(tmp_path / "b")).store) as new:
        assert record_of(new, tmp_path / "two") == first


def test_a_disk_that_fills_while_rebuilding_is_said_and_leaves_nothing(
    exported: Path, tmp_path: Path
) -> None:
    with largest_file(100_000), pytest.raises(StoreError, match="the disk"):
        rebuild(exported, str(tmp_path / "new.kitwright"))
    assert not (tmp_path / "new.kitwright").exists()
