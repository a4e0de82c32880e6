"""Several people at once: three issue the last five pieces, one succeeds."""

from __future__ import annotations

import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest

from inventory.core.places import Place, PlaceKind
from inventory.core.planning.plan import Need, Plan, Step
from inventory.jobs.acts import Bench
from inventory.jobs.bench.finding_items import Asked, Taking
from inventory.jobs.bench.putting_away import Putting, add_bins, put
from inventory.jobs.kits import begin_kit
from inventory.jobs.planning.planning import take_in_plan
from inventory.jobs.record.verifying import verify
from inventory.store.ledger.stock import lying
from inventory.store.opening.database import open_store
from tests.conftest import NOW, slip

ISSUER = """
import sys, datetime as dt
from inventory.core.errors import NotEnoughError
from inventory.core.places import Place, PlaceKind
from inventory.core.record.slips import Slip
from inventory.jobs.acts import Bench
from inventory.jobs.bench.finding_items import Asked
from inventory.jobs.bench.issuing import Issue, issue
from inventory.jobs.kits import choose_kit
from inventory.jobs.stores import open_store

store = open_store(sys.argv[1])
bench = Bench(store, choose_kit(store, ""))
print("ready", flush=True)
sys.stdin.readline()
now = dt.datetime.now(dt.UTC)
made = Slip(key=sys.argv[2], recorded_at=now, happened_on=now.date())
bin_ = Place(PlaceKind.BIN, "B-07")
wanted = Issue(asked=Asked(part="T2-RU-0412"), pieces=int(sys.argv[3]), step="10-02", origin=bin_)
try:
    issue(bench, wanted, made)
    print("issued")
except NotEnoughError:
    print("refused")
store.close()
"""
PLAN = Plan(
    source="p",
    sha256="1" * 64,
    steps=(Step(code="10-02"),),
    needs=(Need(step="10-02", part="T2-RU-0412", quantity=1000),),
)


def stocked(address: str, pieces: int) -> None:
    with closing(open_store(address)) as store:
        bench = Bench(store, begin_kit(store, "Tarn T2", "T2", NOW))
        take_in_plan(bench, PLAN, slip("plan"))
        add_bins(bench, ["B-07"], "", slip("bin"))
        asked = Asked(part="T2-RU-0412")
        taking = Taking(asked, pieces, Place(PlaceKind.OPENING))
        put(bench, [Putting(taking, "B-07")], slip("put"))


def issuers(address: str, keys: list[str], how: int | str, script: str = ISSUER) -> list[str]:
    """Let one process for each key issue at the same moment; return what each said."""
    command = [sys.executable, "-c", script, address]
    root = Path(__file__).parents[2]
    processes = [
        subprocess.Popen(
            [*command, key, str(how)],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
            cwd=root,
        )
        for key in keys
    ]
    for each in processes:
        assert each.stdout is not None
        assert each.stdout.readline() == "ready\n"
    for each in processes:
        assert each.stdin is not None
        each.stdin.write("\n")
        each.stdin.flush()
    return sorted(each.communicate()[0].strip() for each in processes)


def left(address: str) -> tuple[int, int]:
    """Return what lies in the bin and in the step."""
    with closing(open_store(address)) as store:
        assert verify(store).problems == ()
        with store.reading() as db:
            there = {lies.place.kind: lies.quantity for lies in lying(db, 1)}
    return there.get(PlaceKind.BIN, 0), there.get(PlaceKind.STEP, 0)


@pytest.mark.parametrize(("pieces", "after"), [(5, (0, 5)), (2, (1, 4))])
def test_three_processes_issuing_the_last_five_at_once(
    address: str, pieces: int, after: tuple[int, int]
) -> None:
    stocked(address, 5)
    said = issuers(address, ["a", "b", "c"], pieces)
    assert said == (
        ["issued", "refused", "refused"] if pieces == 5 else ["issued"] * 2 + ["refused"]
    )
    assert left(address) == after


def test_the_same_slip_from_three_processes_is_recorded_once(address: str) -> None:
    stocked(address, 9)
    said = issuers(address, ["same"] * 3, 3)
    assert said.count("issued") == 1
    assert left(address) == (6, 3)


MANY = """
import sys, datetime as dt
from inventory.core.errors import StoreError
from inventory.core.places import Place, PlaceKind
from inventory.core.record.slips import Slip
from inventory.jobs.acts import Bench
from inventory.jobs.bench.finding_items import Asked
from inventory.jobs.bench.issuing import Issue, issue
from inventory.jobs.kits import choose_kit
from inventory.jobs.stores import open_store

store = open_store(sys.argv[1])
bench = Bench(store, choose_kit(store, ""))
if sys.argv[3] == "DEFERRED":
    object.__setattr__(store, "engine", store.engine.execution_options(begin="DEFERRED"))
print("ready", flush=True)
sys.stdin.readline()
now = dt.datetime.now(dt.UTC)
bin_ = Place(PlaceKind.BIN, "B-07")
wanted = Issue(asked=Asked(part="T2-RU-0412"), pieces=1, step="10-02", origin=bin_)
done = 0
for number in range(20):
    made = Slip(key=f"{sys.argv[2]} {number}", recorded_at=now, happened_on=now.date())
    try:
        issue(bench, wanted, made)
        done += 1
    except StoreError:
        pass
print(done)
store.close()
"""


def test_three_processes_that_act_again_and_again_all_get_through(sqlite_address: str) -> None:
    stocked(sqlite_address, 200)
    assert issuers(sqlite_address, ["a", "b", "c"], "IMMEDIATE", MANY) == ["20", "20", "20"]
    assert left(sqlite_address) == (140, 60)


def test_writers_that_begin_as_readers_would_not_get_through(sqlite_address: str) -> None:
    """The twin: begun so, two that read before they write shut each other out."""
    stocked(sqlite_address, 200)
    done = [int(said) for said in issuers(sqlite_address, ["a", "b", "c"], "DEFERRED", MANY)]
    assert sum(done) < 60
    assert left(sqlite_address) == (200 - sum(done), sum(done))
