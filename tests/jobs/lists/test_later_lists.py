from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING, Any

import pytest

from inventory.core.errors import InventoryError, NotFoundError
from inventory.core.items import Hand
from inventory.core.receiving.findings import FindingKind
from inventory.jobs.bench.finding_items import Asked
from inventory.jobs.bench.undoing import undo
from inventory.jobs.lists.later_lists import match_list, record_match
from inventory.jobs.lists.unpacking import take_in
from inventory.jobs.planning.workshop_today import today
from inventory.jobs.receiving.claim_answers import Answer, mark_answered
from inventory.jobs.receiving.letters import Addressee, Wording, report_for
from inventory.jobs.receiving.promises import Promised, promise
from inventory.jobs.receiving.receiving import close_crate, crates, found
from inventory.jobs.receiving.still_coming import coming, overdue
from tests.jobs.conftest import line
from tests.jobs.received import a_list, counted, received
from tests.jobs.shelf import stocked, taking

if TYPE_CHECKING:
    from collections.abc import Callable

    from inventory.core.lists.packing import PackingLine
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench

    Slips = Callable[..., Slip]

MAY, JUNE = date(2026, 5, 1), date(2026, 6, 1)
HORN = Asked(part="HORN")


def came_later(bench: Bench, slip: Slips, *lines: PackingLine) -> int:
    return take_in(bench, a_list(8, *lines), slip())


TOLD = Promised(asked=HORN, promised=MAY)


def promised(bench: Bench, slip: Slips, **said: Any) -> None:  # noqa: ANN401
    promise(bench, replace(TOLD, **said), slip())


def test_back_order_that_came_in_part_stays_open_for_the_rest(bench: Bench, slip: Slips) -> None:
    received(bench, slip)
    number = came_later(bench, slip, line("HORN", 2, 1))
    matching = record_match(bench, number, slip())
    assert [(each.pieces, each.coming.source) for each in matching.matched] == [
        (1, "back-order, row 6 of packing list 2 (week 20)")
    ]
    assert [(each.printed, each.pieces) for each in coming(bench)] == [("HORN", 1)]
    back_orders = [one for one in found(bench) if one.kind is FindingKind.BACK_ORDER]
    assert [one.pieces for one in back_orders] == [1]


def test_dry_run_records_nothing(bench: Bench, slip: Slips) -> None:
    received(bench, slip)
    number = came_later(bench, slip, line("HORN", 2, 1))
    assert len(match_list(bench, number).matched) == 1
    assert [each.pieces for each in coming(bench)] == [2]


def test_slip_is_matched_once(bench: Bench, slip: Slips) -> None:
    received(bench, slip)
    number = came_later(bench, slip, line("HORN", 2, 1))
    record_match(bench, number, slip())
    assert match_list(bench, number).matched == ()
    with pytest.raises(InventoryError, match="closes nothing that is open"):
        record_match(bench, number, slip())


def test_undone_match_opens_the_back_order_again(bench: Bench, slip: Slips) -> None:
    received(bench, slip)
    record_match(bench, came_later(bench, slip, line("HORN", 2, 2)), slip())
    assert coming(bench) == []
    undo(bench, slip())
    assert [each.pieces for each in coming(bench)] == [2]


def test_similar_number_closes_nothing_and_is_a_question(bench: Bench, slip: Slips) -> None:
    received(bench, slip)
    matching = match_list(bench, came_later(bench, slip, line("H0RN", 2, 2)))
    assert matching.matched == ()
    assert [(each.pieces, each.near) for each in matching.rest] == [(2, ("HORN",))]


def test_wrong_hand_that_came_later_closes_nothing(bench: Bench, slip: Slips) -> None:
    received(bench, slip)
    report_for(bench, Addressee.SUPPLIER, Wording(), slip())
    mark_answered(bench, 1, Answer(sends=True), slip())
    matching = match_list(bench, came_later(bench, slip, line("RIB-1", 2, 1, hand=Hand.LEFT)))
    assert matching.matched == ()
    assert matching.rest[0].near == ("RIB-1 RIGHT",)


def test_list_never_brings_what_it_lacks_itself(bench: Bench, slip: Slips) -> None:
    received(bench, slip)
    report_for(bench, Addressee.SUPPLIER, Wording(), slip())
    mark_answered(bench, 1, Answer(sends=True), slip())
    before = [(one.kind, one.part, one.pieces) for one in found(bench)]
    for number in (1, 2):
        matching = match_list(bench, number)
        assert [each.coming.printed for each in matching.matched if each.coming.expected] == []
        with pytest.raises(InventoryError, match="closes nothing that is open"):
            record_match(bench, number, slip())
    assert [(one.kind, one.part, one.pieces) for one in found(bench)] == before


def test_number_that_is_open_no_more_asks_nothing(bench: Bench, slip: Slips) -> None:
    received(bench, slip)
    matching = match_list(bench, came_later(bench, slip, line("HORN", 2, 5)))
    assert [each.pieces for each in matching.matched] == [2]
    assert [(each.pieces, each.near) for each in matching.rest] == [(3, ())]


def test_other_length_that_is_open_is_named(bench: Bench, slip: Slips) -> None:
    foot = 304_800_000
    tube = line("TUBE", 2, 0, back_ordered=1, length=4 * foot)
    take_in(bench, a_list(9, tube), slip())
    matching = match_list(bench, came_later(bench, slip, line("TUBE", 2, 1, length=6 * foot)))
    assert [each.near for each in matching.rest] == [("TUBE 48 in",)]


def test_replacement_that_came_settles_its_finding(bench: Bench, slip: Slips) -> None:
    received(bench, slip)
    report_for(bench, Addressee.SUPPLIER, Wording(), slip())
    mark_answered(bench, 1, Answer(sends=True), slip())
    parcel = (line("RIB-1", 2, 1, hand=Hand.RIGHT), line("AN3-5A", 3, 1))
    record_match(bench, came_later(bench, slip, *parcel), slip())
    left = [(one.kind, one.part, one.pieces) for one in found(bench) if one.claimed]
    assert left == [
        (FindingKind.DAMAGED, "SPAR", 1),
        (FindingKind.SHORT, "AN3-5A", 1),
    ]


def test_lines_in_no_crate_are_judged_once_that_heap_is_closed(bench: Bench, slip: Slips) -> None:
    received(bench, slip)
    record_match(bench, came_later(bench, slip, line("HORN", 2, 2)), slip())
    assert [one.part for one in found(bench) if one.kind is FindingKind.SHORT] == ["AN3-5A"]
    assert [(each.crate, each.lines) for each in crates(bench, "?")] == [("", 1)]
    counted(bench, slip, "?", "HORN", 1)
    close_crate(bench, "?", slip())
    assert [(one.part, one.pieces) for one in found(bench, "?")] == [("HORN", 1)]


def test_steps_that_a_parcel_frees_are_named(bench: Bench, slip: Slips) -> None:
    # Step 10-03 needs six bolts, 10-02 eight and a spar; eight bolts lie in a bin.
    stocked(bench, slip, ("B", taking("AN3-5A", 8)))
    number = came_later(bench, slip, line("AN3-5A", 2, 6), line("RIB-1", 3, 1, hand=Hand.LEFT))
    matching = match_list(bench, number)
    assert (matching.frees, matching.helps) == (("10-03",), ("10-01",))


def test_unknown_list_is_refused(bench: Bench) -> None:
    with pytest.raises(NotFoundError, match="no packing list 5"):
        match_list(bench, 5)


def test_promise_dates_what_the_steps_wait_for(bench: Bench, slip: Slips) -> None:
    received(bench, slip)
    promised(bench, slip, latest=JUNE)
    (horn,) = [each for each in today(bench).workshop.due if each.part == "HORN"]
    assert (horn.quantity, horn.promised, horn.latest) == (2, MAY, JUNE)


def test_promise_in_parts_and_taken_back(bench: Bench, slip: Slips) -> None:
    received(bench, slip)
    promised(bench, slip, pieces=1)
    promised(bench, slip, pieces=1, promised=JUNE, more=True)
    assert [(each.pieces, each.promised) for each in coming(bench)] == [(1, MAY), (1, JUNE)]
    promised(bench, slip, promised=None)
    assert [(each.pieces, each.promised) for each in coming(bench)] == [(2, None)]


def test_promise_past_its_late_end_is_overdue(bench: Bench, slip: Slips) -> None:
    received(bench, slip)
    promised(bench, slip, latest=JUNE)
    assert overdue(bench, JUNE) == []
    assert [each.printed for each in overdue(bench, date(2026, 6, 2))] == ["HORN"]


def test_promises_that_make_no_sense_are_refused(bench: Bench, slip: Slips) -> None:
    received(bench, slip)
    told: tuple[tuple[dict[str, Any], str], ...] = (
        ({"pieces": 3}, "3 of 2 still to come"),
        ({"pieces": -1}, "-1 of 2 still to come"),
        ({"latest": date(2026, 4, 1)}, "before the promise"),
        ({"promised": None, "latest": JUNE}, "before the promise"),
        ({"asked": Asked(part="SPAR")}, "nothing of SPAR is still to come"),
        ({"asked": Asked(part="HORN", hand=Hand.LEFT)}, "of that hand or length"),
    )
    for said, why in told:
        with pytest.raises(InventoryError, match=why):
            promised(bench, slip, **said)
    assert [each.promised for each in coming(bench)] == [None]


def test_promise_for_a_part_of_two_hands_asks_which(bench: Bench, slip: Slips) -> None:
    take_in(
        bench,
        a_list(9, *(line("TIP", row, 0, hand=hand, back_ordered=1)
                    for row, hand in ((2, Hand.LEFT), (3, Hand.RIGHT)))),
        slip(),
    )  # fmt: skip
    with pytest.raises(InventoryError, match="TIP is to come LEFT or RIGHT"):
        promised(bench, slip, asked=Asked(part="TIP"))
    promised(bench, slip, asked=Asked(part="TIP", hand=Hand.RIGHT))
    assert [(each.wanted.hand, each.promised) for each in coming(bench)] == [
        (Hand.RIGHT, MAY),
        (Hand.LEFT, None),
    ]
