from __future__ import annotations

import datetime as dt

import pytest

from inventory.core.receiving.counts import Count, Remark
from inventory.core.receiving.findings import Addressee, FindingKind
from inventory.core.receiving.receipt import findings
from tests.core.received import NONE, counted, kinds, line


def test_damaged_pieces_are_on_the_list_and_claimed_from_the_carrier() -> None:
    (found,) = findings([line()], [counted(6, damaged=2)])
    assert (found.kind, found.pieces, found.addressee) == (
        FindingKind.DAMAGED,
        2,
        Addressee.CARRIER,
    )
    assert found.words == "2 of 8 counted: damaged"


def test_defective_pieces_are_claimed_from_the_supplier() -> None:
    count = Count(
        part="T2-FL-0412",
        crate="1",
        pieces_good=6,
        pieces_damaged=2,
        remarks=frozenset({Remark.DEFECTIVE}),
    )
    (found,) = findings([line()], [count])
    assert (found.kind, found.addressee) == (FindingKind.DEFECTIVE, Addressee.SUPPLIER)


def test_pieces_of_another_part_in_the_bag_are_short_and_wrong() -> None:
    count = Count(part="T2-FL-0412", crate="1", pieces_good=6, pieces_wrong=2)
    assert kinds(findings([line()], [count])) == [
        (FindingKind.WRONG_PART, NONE, 2),
        (FindingKind.SHORT, NONE, 2),
    ]


@pytest.mark.parametrize(("pieces", "told"), [(1, "1 piece"), (2, "2 pieces")])
def test_pieces_of_another_part_are_told_by_number(pieces: int, told: str) -> None:
    count = Count(part="T2-FL-0412", crate="1", pieces_good=8, pieces_wrong=pieces)
    (found,) = findings([line()], [count])
    assert found.words == f"{told} of another part lay in its place"


def test_other_revision_is_a_warning_about_all_pieces() -> None:
    count = Count(part="T2-FL-0412", crate="1", pieces_good=8, revision="C")
    (found,) = findings([line(revision="B")], [count])
    assert (found.kind, found.pieces) == (FindingKind.WRONG_REVISION, 8)
    assert found.words == "revision C came, B is listed"


@pytest.mark.parametrize(("listed", "came"), [("B", "B"), ("", "C"), ("B", "")])
def test_revision_that_agrees_or_nobody_printed_shows_nothing(listed: str, came: str) -> None:
    count = Count(part="T2-FL-0412", crate="1", pieces_good=8, revision=came)
    assert findings([line(revision=listed)], [count]) == []


def test_part_sent_for_another_is_a_substitute_and_neither_short_nor_unlisted() -> None:
    count = Count(part="MS20470AD4-5", crate="1", pieces_good=8, instead_of="AN470AD4-5")
    (found,) = findings([line("AN470AD4-5")], [count])
    assert (found.kind, found.part, found.pieces) == (FindingKind.SUBSTITUTE, "MS20470AD4-5", 8)
    assert found.words == ("supplied as MS20470AD4-5, listed as AN470AD4-5: nobody has decided yet")


@pytest.mark.parametrize(
    ("expires", "expired"),
    [(dt.date(2026, 6, 30), True), (dt.date(2026, 7, 1), False), (None, False)],
)
def test_expired_is_after_its_last_day(expires: dt.date | None, *, expired: bool) -> None:
    count = Count(
        part="T2-FL-0412", crate="1", pieces_good=8, expires=expires, on=dt.date(2026, 7, 1)
    )
    found = findings([line()], [count])
    assert [(one.kind, one.words) for one in found] == [
        (FindingKind.EXPIRED, "expired on 2026-06-30, counted on 2026-07-01")
    ] * expired


def test_marking_and_papers_are_findings_of_their_own() -> None:
    count = Count(
        part="T2-FL-0412",
        crate="1",
        pieces_good=8,
        remarks=frozenset({Remark.UNMARKED, Remark.MEASURED, Remark.NO_PAPERS}),
    )
    unmarked, papers = findings([line()], [count])
    assert (unmarked.kind, papers.kind) == (FindingKind.UNMARKED, FindingKind.PAPERS_MISSING)
    assert unmarked.words == (
        "no part number on the pieces or their bag; identified by measurement"
    )
    assert papers.words == "the papers that belong to it didn't come"


def test_unmarked_without_measurement_says_only_that() -> None:
    count = Count(part="T2-FL-0412", crate="1", pieces_good=8, remarks=frozenset({Remark.UNMARKED}))
    (found,) = findings([line()], [count])
    assert found.words == "no part number on the pieces or their bag"


def test_second_sending_is_a_duplicate() -> None:
    twice = Count(
        part="T2-FL-0412", crate="1", pieces_good=8, remarks=frozenset({Remark.DUPLICATE})
    )
    assert kinds(findings([line()], [counted(8), twice])) == [(FindingKind.DUPLICATE, NONE, 8)]
    assert kinds(findings([], [twice])) == [(FindingKind.DUPLICATE, NONE, 8)]


def test_damaged_part_that_is_not_listed_is_told_of_too() -> None:
    found = findings([], [counted(1, damaged=1)])
    assert [one.words for one in found] == ["1 of 2 counted: damaged", "not on the list"]
