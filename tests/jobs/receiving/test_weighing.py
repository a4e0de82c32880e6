from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from inventory.core.errors import InventoryError
from inventory.core.places import Place, PlaceKind
from inventory.core.receiving.counts import Method
from inventory.core.receiving.weighing import GRAM
from inventory.jobs.bench.finding_items import Asked
from inventory.jobs.receiving.counting import TypedCount
from inventory.jobs.receiving.receiving import close_crate, found
from inventory.jobs.receiving.weighing import TypedWeighing, count_weighed, typed_weighing, weighed
from inventory.store.receiving.counts import all_counts
from tests.jobs.shelf import there

if TYPE_CHECKING:
    from collections.abc import Callable

    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench

BOLTS = TypedCount(crate="2", bag="H1", asked=Asked(part="AN3-5A"), pieces="")
# 12 bolts of 5 g: 60 g in a box of 12 g; a sample of 4 was 20 g. Step 2 g: coarse.
SCALE = typed_weighing("tare 12g gross 72g sample 4 20 g step 2g")


def test_one_line_says_the_whole_weighing() -> None:
    assert typed_weighing("TARE 12 g gross 61.6g sample 1 0.51g 0.49 g step 0.1g inside") == (
        TypedWeighing(
            gross="61.6g", tare="12g", step="0.1g", readings=("0.51g", "0.49g"), inside=True
        )
    )


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("gross 61g step 1g", "sample is missing"),
        ("gross 61g sample 25 step 1g", "sample is followed by 1 values"),
        ("gross 61g gross 62g", "gross is said twice"),
        ("61g gross", "'61g' isn't one of"),
        ("gross 61g sample 2 1g step 1g inside 3", "inside is followed by 1 values"),
        ("", "gross is missing"),
        ("gross 61g sample 0.24g 0.25g step 1g", "'0.24g' isn't how many pieces"),
    ],
)
def test_unclear_weighing_is_refused_with_its_form(text: str, why: str) -> None:
    with pytest.raises(InventoryError, match=why) as refused:
        typed_weighing(text)
    assert "sample 25 12.5g" in refused.value.remedy


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("gross 61 sample 25 12g step 0.1g", "has no unit"),
        ("gross 10g tare 12g sample 25 12g step 0.1g", "gross less tare is 0, negative"),
        ("gross 61g sample 25 0g step 0.1g", "a sample's mass is 0"),
        ("gross 61g sample 0 12g step 0.1g", "the sample holds no pieces"),
        ("gross 61g sample 2.5 12g step 0.1g", "pieces are whole"),
        ("gross 61g sample 25 12g step 0.1g spread 40%", "is no spread"),
        ("gross 61g sample 25 12g step 0.1g spread wide", "is no spread"),
    ],
)
def test_weight_that_makes_no_sense_is_refused(text: str, why: str) -> None:
    with pytest.raises(InventoryError, match=why):
        weighed(typed_weighing(text), "AN3-5A")


def test_weighed_count_stays_about_and_keeps_the_scale(
    bench: Bench, slip: Callable[..., Slip]
) -> None:
    counted, result = count_weighed(bench, BOLTS, SCALE, slip())
    assert (counted.pieces_good, counted.method) == (12, Method.WEIGHED)
    assert counted.about > 0
    assert not result.result.exact
    with bench.store.reading() as db:
        (kept,) = all_counts(db, bench.kit.id)
    assert kept.count == counted or kept.count.about == counted.about
    assert kept.weighing is not None
    assert (kept.weighing.net, kept.weighing.sample.pieces) == (60 * GRAM, 4)


def test_a_shortage_the_scale_can_not_tell_is_no_finding(
    bench: Bench, slip: Callable[..., Slip]
) -> None:
    # 55 g net are 11 of 12 listed, give or take one: nothing is surely short.
    count_weighed(bench, BOLTS, typed_weighing("gross 55g sample 4 20g step 2g"), slip())
    close_crate(bench, "2", slip())
    assert [one.part for one in found(bench, "2")] == ["ANGLE"]


def test_small_batch_with_a_fine_scale_is_a_count(bench: Bench, slip: Callable[..., Slip]) -> None:
    fine = typed_weighing("gross 60g sample 10 50g step 0.01g spread 0.5")
    counted, result = count_weighed(bench, BOLTS, fine, slip())
    assert (result.result.exact, counted.about) == (True, 0)


def test_damaged_pieces_of_a_weighed_batch_go_on_hold(
    bench: Bench, slip: Callable[..., Slip]
) -> None:
    bent = TypedCount(crate="2", bag="H1", asked=Asked(part="AN3-5A"), pieces="", damaged="2")
    count_weighed(bench, bent, SCALE, slip())
    assert sum(there(bench, Place(PlaceKind.HOLD, "HOLD")).values()) == 2
    assert sum(there(bench, Place(PlaceKind.CRATE, "2 OF 2/H1")).values()) == 10


def test_a_second_weighing_needs_a_word(bench: Bench, slip: Callable[..., Slip]) -> None:
    count_weighed(bench, BOLTS, SCALE, slip())
    with pytest.raises(InventoryError, match="counted before by Ana: 12"):
        count_weighed(bench, BOLTS, SCALE, slip())
    count_weighed(bench, BOLTS, SCALE, slip(), again="more")
    assert sum(there(bench, Place(PlaceKind.CRATE, "2 OF 2/H1")).values()) == 24
    count_weighed(bench, BOLTS, SCALE, slip(), again="recount")
    assert sum(there(bench, Place(PlaceKind.CRATE, "2 OF 2/H1")).values()) == 12


def test_rivets_that_weigh_too_much_for_their_number_are_doubted() -> None:
    # An MS20470AD4-4 rivet weighs about 0.2 g (kept table of rivet masses); 0.5 g can't be one.
    result = weighed(typed_weighing("gross 49.6g sample 25 12.5g step 0.1g"), "MS20470AD4-4")
    assert "by weight it should be about" in result.doubt
