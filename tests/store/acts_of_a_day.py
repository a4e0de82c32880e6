"""A day's acts and questions, so that every statement of the jobs is said at least once."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from inventory.core.items import Hand
from inventory.core.places import Place, PlaceKind
from inventory.core.receiving.counts import Count
from inventory.jobs.bench import looking_up, putting_away, steps, undoing
from inventory.jobs.bench.finding_items import Asked, Taking
from inventory.jobs.bench.issuing import scrap, take_back
from inventory.jobs.bench.labelling import numbered_bins
from inventory.jobs.bench.putting_away import Putting, add_bins
from inventory.jobs.bench.scanning import ScanSession
from inventory.jobs.lists.unpacking import source_rows, take_in, taken_in
from inventory.jobs.overview import overview
from inventory.jobs.planning.planning import plan_problems, take_in_plan
from inventory.jobs.receiving import receiving
from inventory.jobs.record.page_facts import page_facts
from inventory.jobs.record.record_tables import record_tables
from inventory.store.ledger.tags import all_tags
from inventory.store.receiving.counts import RecordedCount
from tests.conftest import slip
from tests.jobs.conftest import PACKING_LIST, PLAN
from tests.store.filled import fill

if TYPE_CHECKING:
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench

CRATE = Place(PlaceKind.CRATE, "1 OF 2")
BIN = Place(PlaceKind.BIN, "B-01")
_numbers = iter(range(10**6))


def next_slip(note: str = "why") -> Slip:
    return slip(f"day-{next(_numbers)}", note=note)


def act_and_ask(bench: Bench, *, devices: bool = True) -> None:
    """Receive, put away, plan, issue, undo; then ask everything."""
    fill(bench, devices=devices)
    take_in(bench, replace(PACKING_LIST, sha256="d" * 64), next_slip())
    take_in_plan(bench, replace(PLAN, sha256="d" * 64), next_slip())
    _receive(bench)
    _put_away(bench)
    _build(bench)
    _ask(bench)


def _receive(bench: Bench) -> None:
    receiving.open_crate(bench, "1 OF 2", next_slip())
    counts = [
        Count(part="RIB-1", hand=hand, crate="1 OF 2", pieces_good=2, pieces_damaged=damaged)
        for hand, damaged in ((Hand.LEFT, 0), (Hand.RIGHT, 1))
    ] + [Count(part="SPAR", crate="1 OF 2", pieces_good=1)]
    recorded = [RecordedCount(0, 0, each, each.part, recount=False) for each in counts]
    receiving.count(bench, recorded, next_slip())
    receiving.close_crate(bench, "1 OF 2", next_slip())


def _put_away(bench: Bench) -> None:
    add_bins(bench, ["B-01..B-04"], "north", next_slip())
    takings = [
        Taking(Asked(part="RIB-1", hand=Hand.LEFT), 2, CRATE),
        Taking(Asked(part="RIB-1", hand=Hand.RIGHT), 2, CRATE),
        Taking(Asked(part="SPAR"), 1, CRATE),
        Taking(Asked(part="AN3-5A", hand=Hand.NONE), 30, Place(PlaceKind.OPENING)),
    ]
    putting_away.put(bench, [Putting(each, "B-01") for each in takings], next_slip())
    held = putting_away.hold(bench, Taking(Asked(part="AN3-5A"), 2, BIN), next_slip())
    again = Taking(Asked(part="AN3-5A"), 2, held.destination)
    putting_away.release(bench, Putting(again, "B-02"), next_slip())
    putting_away.recount(bench, "B-02", [(Asked(part="AN3-5A"), 3)], next_slip())


def _build(bench: Bench) -> None:
    numbered_bins(bench)
    with bench.store.reading() as db:
        tags = [tag.code for tag in all_tags(db, bench.kit.id)]
    session = ScanSession(bench, next_slip)
    for line in ("B-01", "RIB-1", "10-01", "ZUNDO", *tags[:2], "10-02", "B-01", "2", "AN3-5A"):
        session.scan(line)
    steps.start(bench, "10-01", next_slip())
    steps.done(bench, "10-01", next_slip())
    steps.reopen(bench, "10-01", next_slip())
    steps.built_before(bench, ["10-03"], next_slip())
    taking = Taking(Asked(part="RIB-1", hand=Hand.LEFT), 1, Place(PlaceKind.STEP, "10-01"))
    take_back(bench, taking, "B-03", next_slip(), worked=True)
    scrap(bench, Taking(Asked(part="RIB-1", hand=Hand.LEFT), 1, Place(PlaceKind.BIN, "B-03")),
          next_slip())  # fmt: skip
    undoing.undo(bench, next_slip())


def _ask(bench: Bench) -> None:
    looking_up.where(bench, "RIB-1")
    looking_up.short(bench)
    looking_up.ready(bench)
    looking_up.pick(bench, "10-02")
    looking_up.step_needs(bench, "10-02")
    undoing.history(bench, "RIB-1", "10-01")
    putting_away.in_bins(bench)
    receiving.crates(bench)
    receiving.found(bench)
    plan_problems(bench)
    source_rows(bench, taken_in(bench)[0][0].id)
    overview(bench)
    page_facts(bench)
    with bench.store.reading() as db:
        list(record_tables(db, bench.kit))
