"""An unmarked part on the phone: measured, held for a part, confirmed by a second person."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

import pytest

from inventory.core.items import Hand, Item
from inventory.core.places import Place, PlaceKind
from inventory.jobs.planning.planning import take_in_plan
from tests.conftest import slip
from tests.jobs.conftest import PLAN
from tests.jobs.receiving.test_measured_parts import SIZES
from tests.jobs.shelf import there
from tests.web.conftest import ask

if TYPE_CHECKING:
    from tests.web.conftest import House

MEASURED: dict[str, Any] = {"thickness": "0.033in", "length": "10in", "holes": 8}
HELD: dict[str, Any] = {"crate": "1", "part": "RIB-1", "hand": "left", **MEASURED}
ASKED = "/T2/measure?crate=1&thickness=0.033in&length=10in&holes=8"


@pytest.fixture
def sized(house: House) -> House:
    take_in_plan(house.bench, replace(PLAN, sizes=SIZES, sha256="c" * 64), slip("sizes"))
    return house


def test_measures_leave_both_hands_open_until_one_is_said(sized: House) -> None:
    phone = sized.phone()
    assert "I hold it for this one" not in phone.get("/T2/measure?crate=1").text
    page = phone.get(ASKED).text
    assert page.count("I hold it for this one") == 2
    assert "which hand is it, LEFT or RIGHT" in page
    assert "aren't recorded: SPAR" in page
    assert phone.get(f"{ASKED}&hand=left").text.count("I hold it for this one") == 1


def test_second_person_counts_what_the_first_one_holds(sized: House) -> None:
    ana, ben = sized.phone(), sized.phone("tablet", "Ben")
    words = ask(ana, "hold-for", **HELD).json()["words"]
    assert words[0] == "1 x RIB-1 LEFT, says Ana; not counted yet"
    crate = Place(PlaceKind.CRATE, "1 OF 2")
    assert there(sized.bench, crate) == {}
    assert "by its measures, says Ana" in ben.get("/T2/crate?crate=1").text
    alone = ask(ana, "settle-identified", "by-herself", number=1, confirmed=True)
    assert alone.status_code == 409
    said = ask(ben, "settle-identified", "by-another", number=1, confirmed=True).json()["words"]
    assert said[0] == "1 x RIB-1 LEFT: confirmed, counted as identified by measurement"
    assert there(sized.bench, crate) == {Item("RIB-1", Hand.LEFT): 1}
    assert "by its measures" not in ben.get("/T2/crate?crate=1").text


def test_what_the_second_person_refuses_is_not_counted(sized: House) -> None:
    ask(sized.phone(), "hold-for", **HELD)
    refused = sized.phone("tablet", "Ben").act("settle-identified", number="1", confirmed="")
    assert refused.status_code == 303
    assert there(sized.bench, Place(PlaceKind.CRATE, "1 OF 2")) == {}


@pytest.mark.parametrize(
    ("query", "status"),
    [
        ("crate=9", 404),
        ("crate=1&length=10", 409),
        ("crate=1&holes=-1", 409),
        ("crate=1&length=10in&hand=up", 422),
    ],
)
def test_measures_that_cant_be_are_refused(sized: House, query: str, status: int) -> None:
    assert sized.phone().get(f"/T2/measure?{query}").status_code == status


def test_something_must_be_measured(sized: House) -> None:
    nothing = {name: value for name, value in HELD.items() if name not in MEASURED}
    answer = ask(sized.phone(), "hold-for", **nothing)
    assert answer.status_code == 409
    assert "some measures are needed" in answer.json()["refused"]
