from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from inventory.core.errors import InventoryError, NotFoundError
from inventory.core.items import Hand, Item
from inventory.core.measures.lengths import parse_length
from inventory.core.parts.measuring import Dimension, Measured
from inventory.core.places import Place, PlaceKind
from inventory.core.planning.plan import PartSize
from inventory.core.receiving.counts import Remark
from inventory.core.receiving.findings import FindingKind
from inventory.jobs.bench.finding_items import Asked
from inventory.jobs.planning.planning import take_in_plan
from inventory.jobs.receiving.measured_parts import Held, candidates, hold_for, settle, waiting
from inventory.jobs.receiving.receiving import found
from inventory.store.receiving.counts import all_counts
from tests.jobs.conftest import PLAN
from tests.jobs.received import counted
from tests.jobs.shelf import there

if TYPE_CHECKING:
    from collections.abc import Callable

    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench

    Slips = Callable[..., Slip]

SHEET, LONG = parse_length("0.032in"), parse_length("10in")
SIZES = (
    PartSize(part="RIB-1", hand=Hand.LEFT, thickness=SHEET, length=LONG, holes=8),
    PartSize(part="SPAR", thickness=parse_length("0.040in"), length=parse_length("40in")),
)
READ = Measured(
    sizes={Dimension.THICKNESS: parse_length("0.033in"), Dimension.LENGTH: LONG}, holes=8
)
LEFT_RIB = Held(asked=Asked(part="RIB-1", hand=Hand.LEFT), measured=READ, crate="1")


@pytest.fixture
def sized(bench: Bench, slip: Slips) -> Bench:
    take_in_plan(bench, replace(PLAN, sizes=SIZES, sha256="c" * 64), slip())
    return bench


@pytest.fixture
def by(slip: Slips) -> Callable[[str], Slip]:
    return lambda person: replace(slip(), person=person)


def test_mirror_parts_tie_and_the_hand_is_asked(sized: Bench) -> None:
    told = candidates(sized, READ)
    first, second = told.ranking.candidates
    assert {first.hand, second.hand} == {Hand.LEFT, Hand.RIGHT}
    assert (first.share, first.fits) == (0.5, True)
    assert "which hand is it, LEFT or RIGHT" in told.questions[0]


def test_part_whose_holes_the_plans_do_not_say_can_not_be_ruled_out(sized: Bench) -> None:
    assert candidates(sized, READ).ranking.unsized == ("SPAR",)


def test_hand_that_is_said_leaves_one(sized: Bench) -> None:
    told = candidates(sized, READ, Hand.LEFT)
    assert [(each.part, each.hand) for each in told.ranking.candidates] == [("RIB-1", Hand.LEFT)]


def test_part_that_was_found_is_no_candidate(sized: Bench, slip: Slips) -> None:
    counted(sized, slip, "1", "RIB-1", 2, hand=Hand.LEFT)
    assert [each.hand for each in candidates(sized, READ).ranking.candidates] == [Hand.RIGHT]


def test_hand_is_asked_even_where_only_one_of_the_pair_is_open(
    sized: Bench, slip: Slips, by: Callable[[str], Slip]
) -> None:
    # All left ones are found: what lies there may be a left one too many.
    counted(sized, slip, "1", "RIB-1", 2, hand=Hand.LEFT)
    first, *_ = candidates(sized, READ).questions
    assert first == "which hand is it? RIB-1 is listed in both; only RIGHT is to be found"
    assert "which hand" not in " ".join(candidates(sized, READ, Hand.RIGHT).questions)
    unsaid = replace(LEFT_RIB, asked=Asked(part="RIB-1"))
    with pytest.raises(InventoryError, match="is it LEFT or RIGHT"):
        hold_for(sized, unsaid, by("Ana"))
    said = replace(LEFT_RIB, asked=Asked(part="RIB-1", hand=Hand.RIGHT))
    assert hold_for(sized, said, by("Ana")).hand is Hand.RIGHT


def test_hardware_and_stock_are_never_told_by_measures(sized: Bench) -> None:
    ranking = candidates(sized, replace(READ, holes=None)).ranking
    named = {each.part for each in ranking.candidates} | set(ranking.unsized)
    assert named == {"RIB-1", "SPAR"}


def test_one_person_alone_counts_nothing(sized: Bench, by: Callable[[str], Slip]) -> None:
    told = hold_for(sized, LEFT_RIB, by("Ana"))
    assert (told.number, told.crate, told.by) == (1, "1 OF 2", "Ana")
    assert [each.number for each in waiting(sized)] == [1]
    assert there(sized, Place(PlaceKind.CRATE, "1 OF 2")) == {}
    with pytest.raises(InventoryError, match="a second person has to look"):
        settle(sized, 1, by("ana"), confirmed=True)
    with pytest.raises(InventoryError, match="a second person has to look"):
        settle(sized, 1, by(""), confirmed=True)


def test_second_person_makes_it_a_count_by_measurement(
    sized: Bench, by: Callable[[str], Slip]
) -> None:
    hold_for(sized, LEFT_RIB, by("Ana"))
    assert settle(sized, 1, by("Ben"), confirmed=True).state == "confirmed"
    assert there(sized, Place(PlaceKind.CRATE, "1 OF 2")) == {Item("RIB-1", Hand.LEFT): 1}
    with sized.store.reading() as db:
        (count,) = all_counts(db, sized.kit.id)
    assert count.count.by == "Ana, Ben"
    assert count.count.remarks == {Remark.UNMARKED, Remark.MEASURED}
    (unmarked,) = [one for one in found(sized) if one.kind is FindingKind.UNMARKED]
    assert "identified by measurement" in unmarked.words
    assert waiting(sized) == []
    with pytest.raises(InventoryError, match="was confirmed before"):
        settle(sized, 1, by("Ben"), confirmed=True)


def test_refused_part_is_counted_nowhere(sized: Bench, by: Callable[[str], Slip]) -> None:
    hold_for(sized, LEFT_RIB, by("Ana"))
    settle(sized, 1, by("Ben"), confirmed=False)
    assert there(sized, Place(PlaceKind.CRATE, "1 OF 2")) == {}
    assert waiting(sized) == []


def test_identified_pieces_add_to_what_was_counted(
    sized: Bench, slip: Slips, by: Callable[[str], Slip]
) -> None:
    counted(sized, slip, "1", "RIB-1", 1, hand=Hand.LEFT)
    hold_for(sized, LEFT_RIB, by("Ana"))
    settle(sized, 1, by("Ben"), confirmed=True)
    assert there(sized, Place(PlaceKind.CRATE, "1 OF 2")) == {Item("RIB-1", Hand.LEFT): 2}


def test_what_can_not_be_held_for_a_part_is_refused(
    sized: Bench, by: Callable[[str], Slip]
) -> None:
    thick = Measured(sizes={Dimension.THICKNESS: parse_length("0.125in")})
    cases = (
        (replace(LEFT_RIB, asked=Asked(part="RIB-1")), "is it LEFT or RIGHT"),
        (replace(LEFT_RIB, asked=Asked(part="SPAR")), "no sizes of it are recorded"),
        (replace(LEFT_RIB, asked=Asked(part="AN3-5A")), "none of it is open"),
        (replace(LEFT_RIB, measured=thick), "too far off"),
        (replace(LEFT_RIB, pieces=0), "0 pieces of 2 still to be found can't be"),
        (replace(LEFT_RIB, pieces=3), "3 pieces of 2 still to be found can't be"),
        (replace(LEFT_RIB, crate="9"), "no crate '9'"),
        (replace(LEFT_RIB, measured=Measured(sizes={})), "nothing was measured"),
    )
    for held, why in cases:
        with pytest.raises(InventoryError, match=why):
            hold_for(sized, held, by("Ana"))
    with pytest.raises(InventoryError, match="who says so"):
        hold_for(sized, LEFT_RIB, by(""))
    with pytest.raises(NotFoundError, match="there is no identification 1"):
        settle(sized, 1, by("Ben"), confirmed=True)
