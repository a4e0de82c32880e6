from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from inventory.core.errors import InventoryError, NotFoundError
from inventory.core.items import Hand, Item
from inventory.core.places import Place, PlaceKind
from inventory.core.planning.plan import Need, Plan, Step
from inventory.core.record.ledger import Movement
from inventory.jobs.acts import acting
from inventory.jobs.bench import steps
from inventory.jobs.bench.finding_items import Asked
from inventory.jobs.bench.issuing import Issue, issue
from inventory.jobs.bench.scanning import Answer
from inventory.jobs.planning.laying_down import LayingDown
from inventory.jobs.planning.laying_out import begin, end, result_words, roll, sections
from inventory.jobs.planning.planning import take_in_plan
from tests.jobs.shelf import stocked, taking

if TYPE_CHECKING:
    from collections.abc import Callable

    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench

    NewSlip = Callable[..., Slip]

PLAN = Plan(
    source="s.xlsx",
    sha256="d" * 64,
    steps=(
        Step(code="10-01", section="10 Ribs"),
        Step(code="10-02", section="10 Ribs"),
        Step(code="11-01", section="11 Spar"),
        Step(code="12-01", section="12 Bolts"),
    ),
    needs=(
        Need(step="10-01", part="RIB-1", hand=Hand.LEFT, quantity=2, sheet="S1", find_number="3"),
        Need(step="10-02", part="RIB-1", hand=Hand.RIGHT, quantity=1, sheet="S1", find_number="3"),
        Need(step="10-02", part="PLATE", quantity=1, sheet="S1", find_number="5"),
        Need(step="11-01", part="SPAR", quantity=1, sheet="S2", find_number="1"),
    ),
)


@pytest.fixture
def table(bench: Bench, slip: NewSlip) -> Bench:
    """Lay two left ribs, a right one and a spar into bins; no plate is there."""
    take_in_plan(bench, PLAN, slip())
    stocked(
        bench,
        slip,
        ("A", taking("RIB-1", 2, hand=Hand.LEFT)),
        ("B", taking("RIB-1", 2, hand=Hand.RIGHT)),
        ("C", taking("SPAR", 1)),
    )
    return bench


def told(at: LayingDown, *texts: str) -> list[tuple[str, str]]:
    return [(verdict.answer, verdict.words) for verdict in map(at.scan, texts)]


def test_the_roll_tells_where_each_lies_and_what_is_missing(table: Bench) -> None:
    seen = roll(table, "10")
    assert [
        (
            line.entry.need.part,
            line.entry.need.hand,
            line.entry.pieces,
            [(lies.place.code, lies.quantity) for lies in line.lying],
            line.missing,
        )
        for line in seen.lines
    ] == [
        ("RIB-1", "left", 2, [("A", 2)], 0),
        ("RIB-1", "right", 1, [("B", 2)], 0),
        ("PLATE", "none", 1, [], 1),
    ]


def test_a_part_in_its_step_already_is_not_missing(table: Bench, slip: NewSlip) -> None:
    issue(
        table,
        Issue(asked=Asked(part="RIB-1", hand=Hand.LEFT), pieces=2, step="10-01"),
        slip(),
    )
    assert roll(table, "10").lines[0].missing == 0


def test_what_lies_in_a_crate_or_on_hold_is_told_beside_the_missing(
    table: Bench, slip: NewSlip
) -> None:
    with acting(table, "x", slip()) as act:
        held = Place(PlaceKind.HOLD, "HOLD")
        act.move([Movement(Item("PLATE"), 1, Place(PlaceKind.OPENING), held)])
    line = roll(table, "10").lines[2]
    assert (line.missing, [lies.place.kind for lies in line.elsewhere]) == (1, ["hold"])


def test_sections_are_found_by_their_first_words(table: Bench) -> None:
    assert [(each.name, each.major_parts) for each in sections(table)] == [
        ("10 Ribs", 4),
        ("11 Spar", 1),
        ("12 Bolts", 0),
    ]
    assert roll(table, "10  ribs").section == "10 Ribs"
    for text in ("1", "ribs", ""):
        with pytest.raises(NotFoundError, match="no section"):
            roll(table, text)


def test_each_part_is_identified_as_it_is_laid_down(table: Bench, slip: NewSlip) -> None:
    at = LayingDown(table, "10", slip)
    assert at.state == "section 10 Ribs, 4 pieces to lay down - next: part"
    assert told(at, "rib-1", "L", "RIB-1", "R", "SPAR", "RIB-1", "R") == [
        ("QUESTION", "RIB-1 comes in several hands: left, right"),
        ("OK", "RIB-1 LEFT, plans S1 3: on the LEFT side, 1 more to come"),
        ("QUESTION", "RIB-1 comes in several hands: left, right"),
        ("OK", "RIB-1 RIGHT, plans S1 3: on the RIGHT side, complete"),
        ("NOT OK", "SPAR isn't laid out in section 10 Ribs; it is for step 11-01"),
        ("QUESTION", "RIB-1 comes in several hands: left, right"),
        ("NOT OK", "all RIB-1 RIGHT of section 10 Ribs are laid down already"),
    ]
    assert at.state == "section 10 Ribs, 2 pieces to lay down - next: part"
    assert [line.laid for line in roll(table, "10").lines] == [1, 1, 0]


def test_a_wrong_hand_is_refused_in_words(table: Bench, slip: NewSlip) -> None:
    left_only = replace(PLAN, sha256="e" * 64, needs=(PLAN.needs[0], *PLAN.needs[2:]))
    take_in_plan(table, left_only, slip())
    at = LayingDown(table, "10", slip)
    at.scan("RIB-1")
    assert at.state == "RIB-1: LEFT or RIGHT?"
    verdict = at.scan("R")
    assert (verdict.answer, verdict.words, verdict.remedy) == (
        Answer.NOT_OK,
        "this is RIB-1 RIGHT: section 10 Ribs needs it LEFT",
        "Put it back and find the one of the other hand.",
    )


def test_unknown_codes_bins_and_empty_lines_lay_nothing_down(table: Bench, slip: NewSlip) -> None:
    at = LayingDown(table, "10", slip)
    assert [answer for answer, _ in told(at, "RIB-2", "A", " ", "ZUNDO", "L")] == [
        "NOT OK",
        "NOT OK",
        "NOTED",
        "NOT OK",
        "NOT OK",
    ]
    assert roll(table, "10").missing == roll(table, "10").missing
    assert at.tally == {Answer.NOT_OK: 4, Answer.NOTED: 1}


def test_undo_takes_the_last_part_off_the_table(table: Bench, slip: NewSlip) -> None:
    at = LayingDown(table, "11", slip)
    assert told(at, "SPAR", "ZUNDO", "SPAR") == [
        ("OK", "SPAR without a hand, plans S2 1: in the middle, complete"),
        ("UNDONE", "the last part is off the table again"),
        ("OK", "SPAR without a hand, plans S2 1: in the middle, complete"),
    ]


def test_a_lay_out_goes_on_where_it_stopped(table: Bench, slip: NewSlip) -> None:
    LayingDown(table, "10", slip).scan("PLATE")
    told(LayingDown(table, "10", slip), "RIB-1", "L")
    again = LayingDown(table, "10", slip)
    assert again.state == "section 10 Ribs, 2 pieces to lay down - next: part"


def test_the_result_is_kept_with_date_and_who(table: Bench, slip: NewSlip) -> None:
    told(LayingDown(table, "10", slip), "RIB-1", "L", "RIB-1", "L", "RIB-1", "R")
    end(table, "10", slip())
    (kept,) = sections(table)[0].lay_outs
    assert kept.missing == ({"part": "PLATE", "hand": "none", "pieces": "1", "plans": "S1 5"},)
    assert result_words(kept) == "2026-03-14 by Ana: 1 missing"
    assert roll(table, "10").running is None
    begun = begin(table, "10", slip()).running
    assert begun is not None
    assert result_words(replace(begun, person="")) == "begun 2026-03-14"
    assert result_words(replace(kept, missing=())) == "2026-03-14 by Ana: complete"


def test_steps_done_need_no_laying_out(table: Bench, slip: NewSlip) -> None:
    steps.done(table, "11-01", slip())
    with pytest.raises(InventoryError, match="no major parts to lay out"):
        begin(table, "11", slip())
    with pytest.raises(InventoryError, match="no lay-out of section 10 Ribs runs"):
        end(table, "10", slip())


def test_a_lay_out_that_somebody_ended_takes_nothing_more(table: Bench, slip: NewSlip) -> None:
    at = LayingDown(table, "11", slip)
    end(table, "11", slip())
    assert told(at, "SPAR") == [
        ("NOT OK", "the lay-out of section 11 Spar was ended by somebody else")
    ]
