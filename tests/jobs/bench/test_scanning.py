from __future__ import annotations

import json
import tomllib
from itertools import count
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from inventory.core.items import Hand, Item
from inventory.core.places import Place, PlaceKind
from inventory.core.planning.plan import Need, Plan, Step
from inventory.jobs.bench.putting_away import hold
from inventory.jobs.bench.scan_state import kept, state_from
from inventory.jobs.bench.scanning import ScanSession
from inventory.jobs.planning.planning import take_in_plan
from inventory.store.ledger.tags import tags_for
from tests.conftest import slip
from tests.jobs.shelf import bin_, stocked, taking, there

if TYPE_CHECKING:
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench

CASES = tomllib.loads(Path(__file__).parents[2].joinpath("cases/scan_loop.toml").read_text())
SESSIONS = CASES["session"]
PLAN = Plan(
    source="plan.xlsx",
    sha256="c" * 64,
    steps=tuple(Step(code=f"10-0{number}", title="Step") for number in (1, 2, 3, 4)),
    needs=(
        Need(step="10-01", part="RIB-1", hand=Hand.LEFT, quantity=2),
        Need(step="10-01", part="RIB-1", hand=Hand.RIGHT, quantity=2),
        Need(step="10-02", part="SPAR", quantity=1),
        Need(step="10-02", part="AN3-5A", quantity=3, spare=1),
        Need(step="10-03", part="RIB-1", hand=Hand.LEFT, quantity=1),
        Need(step="10-04", part="AN3-5A", quantity=1),
    ),
)
HOLD = Place(PlaceKind.HOLD, "HOLD")
_keys = count(1)


def new_slip(note: str = "", device: str = "") -> Slip:
    made = slip(f"scan-{next(_keys)}", note=note)
    return type(made)(
        key=made.key,
        recorded_at=made.recorded_at,
        happened_on=made.happened_on,
        person=made.person,
        device=device,
        note=note,
    )


@pytest.fixture
def station(sqlite_bench: Bench) -> Bench:
    take_in_plan(sqlite_bench, PLAN, new_slip())
    stocked(
        sqlite_bench,
        new_slip,
        ("A", taking("AN3-5A", 4)),
        ("A", taking("SPAR", 2)),
        ("B", taking("RIB-1", 2, hand=Hand.LEFT)),
        ("B", taking("RIB-1", 2, hand=Hand.RIGHT)),
    )
    hold(sqlite_bench, taking("SPAR", 1, bin_("A")), new_slip("dented"))
    return sqlite_bench


def labels(bench: Bench) -> dict[str, str]:
    """Return what is printed on the labels, as the cases name them."""
    steps = {f"step {step.code}": Place(PlaceKind.STEP, step.code) for step in PLAN.steps}
    places = {"bin A": bin_("A"), "bin B": bin_("B"), "hold": HOLD}
    hands = {"left": Item("RIB-1", Hand.LEFT), "right": Item("RIB-1", Hand.RIGHT)}
    with bench.store.writing(bench.kit.id) as db:
        codes = tags_for(db, bench.kit, [*steps.values(), *places.values(), *hands.values()])
    printed = {name: f"1W{codes[place]}" for name, place in steps.items()}
    printed |= {name: f"L{codes[place]}" for name, place in places.items()}
    printed |= {name: f"9S{codes[item]}" for name, item in hands.items()}
    return printed | {"step 10-02 in lower case": printed["step 10-02"].lower()}


@pytest.mark.parametrize("case", SESSIONS, ids=[case["name"] for case in SESSIONS])
def test_session(station: Bench, case: dict[str, Any]) -> None:
    printed = labels(station)
    session = ScanSession(station, new_slip)
    verdicts = [session.scan(line.format_map(printed)) for line in case["lines"]]
    assert [str(each.answer) for each in verdicts] == case["answers"]
    assert verdicts[-1].words == case.get("last", verdicts[-1].words)
    assert verdicts[-1].remedy == case.get("remedy", verdicts[-1].remedy)
    assert session.state == case.get("state", session.state)
    assert sum(session.tally.values()) == len(case["lines"])


def timed(bench: Bench, *lines: tuple[float, str]) -> list[str]:
    session = ScanSession(bench, new_slip)
    return [str(session.scan(line, at).answer) for at, line in lines]


def test_same_part_within_a_second_is_asked_and_the_third_counts(station: Bench) -> None:
    answers = timed(station, (0, "10-02"), (5, "AN3-5A"), (5.3, "AN3-5A"), (5.6, "AN3-5A"))
    assert answers == ["NOTED", "OK", "QUESTION", "OK"]
    assert there(station, bin_("A"))[Item("AN3-5A")] == 2


def test_same_part_after_a_second_counts(station: Bench) -> None:
    assert timed(station, (0, "10-02"), (5, "AN3-5A"), (6.1, "AN3-5A")) == ["NOTED", "OK", "OK"]


def test_digit_within_a_second_is_asked(station: Bench) -> None:
    assert timed(station, (0, "ZQ1"), (0.2, "ZQ1")) == ["NOTED", "QUESTION"]


def test_step_within_a_second_doesnt_become_the_step_of_all_that_follows(station: Bench) -> None:
    lines = ((0, "A"), (3, "AN3-5A"), (6, "10-02"), (6.3, "10-02"))
    assert timed(station, *lines) == ["NOTED", "NOTED", "OK", "QUESTION"]


def test_undo_within_a_second_undoes_once(station: Bench) -> None:
    lines = ((0, "10-02"), (2, "SPAR"), (4, "AN3-5A"), (6, "ZUNDO"), (6.2, "ZUNDO"))
    assert timed(station, *lines) == ["NOTED", "OK", "OK", "UNDONE", "QUESTION"]


def test_piped_lines_have_no_clock_and_are_never_asked(station: Bench) -> None:
    session = ScanSession(station, new_slip)
    session.scan("10-02")
    assert [str(session.scan("AN3-5A").answer) for _ in range(3)] == ["OK"] * 3


def test_undo_outlives_a_restart_where_the_scanner_has_a_name(station: Bench) -> None:
    before = ScanSession(station, lambda: new_slip(device="bench"))
    before.scan("10-02")
    before.scan("SPAR")
    assert ScanSession(station, lambda: new_slip(device="other")).scan("ZUNDO").answer == "NOT OK"
    after = ScanSession(station, lambda: new_slip(device="bench"))
    assert after.scan("ZUNDO").words == "1 x SPAR from step 10-02 to bin A"
    assert after.scan("ZUNDO").answer == "NOT OK"


def test_undo_is_refused_where_the_pieces_moved_on(station: Bench) -> None:
    first = ScanSession(station, lambda: new_slip(device="bench"))
    first.scan("10-02")
    first.scan("SPAR")
    hold(station, taking("SPAR", 1, Place(PlaceKind.STEP, "10-02")), new_slip("bent"))
    assert "moved on" in first.scan("ZUNDO").words


def test_nothing_is_issued_by_a_refused_scan(station: Bench) -> None:
    session = ScanSession(station, new_slip)
    for line in ("10-03", "B", "R", "RIB-1", "R"):
        session.scan(line)
    assert there(station, bin_("B")) == {Item("RIB-1", Hand.LEFT): 2, Item("RIB-1", Hand.RIGHT): 2}


LINES = ("A", "B", "AN3-5A", "RIB-1", "SPAR", "L", "R", "ZYES", "ZUNDO", "ZCLEAR", "ZDONE", "10-01",
         "10-02", "10-04", "ZQ2", "3", "AN3-6A", "", "ß")  # fmt: skip


@settings(
    max_examples=12, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(lines=st.lists(st.sampled_from(LINES), max_size=12))
def test_state_survives_being_kept(station: Bench, lines: list[str]) -> None:
    session = ScanSession(station, new_slip)
    for line in lines:
        session.scan(line, 1.0)
        assert state_from(json.loads(json.dumps(kept(session.at)))) == session.at


def test_every_shown_movement_stands_in_the_ledger(station: Bench) -> None:
    session = ScanSession(station, new_slip)
    for line in ("10-02", "ZQ3", "AN3-5A", "SPAR"):
        session.scan(line)
    assert there(station, Place(PlaceKind.STEP, "10-02")) == {Item("AN3-5A"): 3, Item("SPAR"): 1}
