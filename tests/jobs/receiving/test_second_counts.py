from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from inventory.core.items import Hand
from inventory.jobs.bench.finding_items import Asked
from inventory.jobs.receiving.counting import TypedCount, count_typed
from inventory.jobs.receiving.left_to_count import (
    Said,
    beside,
    count_line,
    left_to_count,
    left_to_recount,
)
from inventory.jobs.receiving.second_counts import piles_of, unsettled
from inventory.store.receiving.counts import all_counts

if TYPE_CHECKING:
    from collections.abc import Callable

    from inventory.core.receiving.counts import Count
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench

SPAR = TypedCount(crate="1", asked=Asked(part="SPAR"), pieces="1")


@pytest.fixture
def by(slip: Callable[..., Slip]) -> Callable[[str], Slip]:
    return lambda person: replace(slip(), person=person)


def counted(bench: Bench, pieces: str, slip: Slip, *, again: str = "") -> Count:
    typed = replace(SPAR, pieces=pieces)
    return count_typed(bench, typed, slip, recount=again == "recount", more=again == "more")


def test_one_count_settles_nothing_and_asks_nothing(
    bench: Bench, by: Callable[[str], Slip]
) -> None:
    counted(bench, "1", by("Ana"))
    assert unsettled(bench) == []


def test_two_counts_that_differ_are_shown_with_both_persons(
    bench: Bench, by: Callable[[str], Slip]
) -> None:
    counted(bench, "3", by("Ana"))
    counted(bench, "2", by("Ben"), again="recount")
    (pile,) = unsettled(bench, "1")
    assert [(each.by, each.good) for each in pile.rounds] == [("Ana", 3), ("Ben", 2)]
    assert pile.persons == {"Ana", "Ben"}
    assert unsettled(bench, "2") == []


def test_third_count_that_agrees_with_one_settles_it(
    bench: Bench, by: Callable[[str], Slip]
) -> None:
    counted(bench, "3", by("Ana"))
    counted(bench, "2", by("Ben"), again="recount")
    counted(bench, "2", by("Cem"), again="recount")
    assert unsettled(bench) == []


def test_what_is_added_belongs_to_the_same_round(bench: Bench, by: Callable[[str], Slip]) -> None:
    counted(bench, "1", by("Ana"))
    counted(bench, "2", by("Ben"), again="more")
    counted(bench, "3", by("Cem"), again="recount")
    with bench.store.reading() as db:
        (pile,) = piles_of(all_counts(db, bench.kit.id))
    assert [(each.by, each.good) for each in pile.rounds] == [("Ana, Ben", 3), ("Cem", 3)]
    assert pile.agreed


def test_condition_counts_as_well_as_the_number(bench: Bench, by: Callable[[str], Slip]) -> None:
    counted(bench, "2", by("Ana"))
    count_typed(bench, replace(SPAR, pieces="2", damaged="1"), by("Ben"), recount=True)
    assert len(unsettled(bench)) == 1


def test_count_goes_on_where_it_was_left(bench: Bench, by: Callable[[str], Slip]) -> None:
    first = left_to_count(bench, "1")
    assert (first.crate, first.all_lines, len(first.lines)) == ("1 OF 2", 3, 3)
    count_line(bench, first.lines[0], Said(pieces="2", damaged="1"), by("Ana"))
    left = left_to_count(bench, "1")
    assert [(line.part, line.hand) for line in left.lines] == [
        ("RIB-1", Hand.RIGHT),
        ("SPAR", Hand.NONE),
    ]


def test_only_the_bag_asked_for_is_left(bench: Bench) -> None:
    assert [line.part for line in left_to_count(bench, "2", "h1").lines] == ["AN3-5A"]


def test_second_person_gets_what_others_counted_and_not_their_own(
    bench: Bench, by: Callable[[str], Slip]
) -> None:
    counted(bench, "1", by("Ana"))
    assert left_to_recount(bench, "1", "Ana").lines == ()
    (line,) = left_to_recount(bench, "1", "Ben").lines
    count_line(bench, line, Said(pieces="1"), by("Ben"), recount=True)
    assert left_to_recount(bench, "1", "Cem").lines == ()


def test_third_person_gets_what_differs(bench: Bench, by: Callable[[str], Slip]) -> None:
    counted(bench, "3", by("Ana"))
    counted(bench, "2", by("Ben"), again="recount")
    assert [line.part for line in left_to_recount(bench, "1", "Cem").lines] == ["SPAR"]
    assert left_to_recount(bench, "1", "Ben").lines == ()


def test_what_the_list_says_stands_beside_a_count(bench: Bench, by: Callable[[str], Slip]) -> None:
    spar = counted(bench, "1", by("Ana"))
    assert beside(bench, spar).listed == "1"
    assert beside(bench, replace(spar, bag="H9")).listed is None
