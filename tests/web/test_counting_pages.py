"""Counting over the network: numbers that look like known ones, and counts by weight."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

import pytest

from inventory.core.cautions import WEIGHED
from inventory.core.items import Hand, Item
from inventory.core.places import Place, PlaceKind
from tests.jobs.shelf import there
from tests.web.conftest import ask

if TYPE_CHECKING:
    from tests.web.conftest import House, Phone

CRATE, BAG = Place(PlaceKind.CRATE, "1 OF 2"), Place(PlaceKind.CRATE, "2 OF 2/H1")
UNLISTED = {"crate": "1", "part": "SPARR", "pieces": "2"}
SCALE = {
    "crate": "2", "bag": "H1", "part": "AN3-5A", "hand": "none",
    "sample_pieces": "10", "sample": "50 g", "gross": "212.4 g", "tare": "12.4g",
    "step": "0.01 g", "spread": "0.5",
}  # fmt: skip
"""Ten pieces of 5 g each as the sample; 200 g beside it."""


def sent_again(page: str) -> dict[str, str]:
    """Return the fields of the form on a page that puts a question."""
    form = re.search(r'<form method="post" action="/T2/act/[^"]*">.*?</form>', page, re.DOTALL)
    assert form is not None
    return dict(re.findall(r'name="([^"]*)" value="([^"]*)"', form[0]))


def test_number_that_looks_like_a_known_one_is_asked_about(phone: Phone, house: House) -> None:
    answer = ask(phone, "count", **UNLISTED)
    assert answer.status_code == 404
    assert "it looks like SPAR" in answer.json()["refused"]
    assert answer.json()["asks"] == "new_part"
    assert there(house.bench, CRATE) == {}
    assert ask(phone, "count", "document-2", **UNLISTED, new_part=True).status_code == 200
    assert there(house.bench, CRATE) == {Item("SPARR"): 2}


def test_refusal_that_asks_nothing_names_no_field(phone: Phone) -> None:
    assert "asks" not in ask(phone, "count", crate="1", part="SPAR", pieces="2.5").json()


def test_page_asks_and_one_key_answers(phone: Phone, house: House) -> None:
    page = phone.act("count", then="/T2/crate?crate=1", **UNLISTED)
    assert page.status_code == 404
    assert "SPARR is another part: record it so" in page.text
    again = sent_again(page.text)
    assert again["new_part"] == "yes"
    assert again.pop("then") == "/T2/crate?crate=1"
    assert phone.act("count", again.pop("slip"), **again).status_code == 303
    assert there(house.bench, CRATE) == {Item("SPARR"): 2}


def test_other_refusals_offer_no_such_key(phone: Phone) -> None:
    assert "another part" not in phone.act("count", crate="1", part="SPAR", pieces="x").text
    assert "another part" not in phone.get("/T2/part?number=SPARR").text


def test_both_hands_of_a_strange_number_are_asked_about_too(phone: Phone) -> None:
    sides = {"crate": "1", "part": "RIB-11", "left_pieces": "1", "right_pieces": "1"}
    assert ask(phone, "count-sides", **sides).json()["asks"] == "new_part"
    assert ask(phone, "count-sides", "document-2", **sides, new_part=True).status_code == 200


def test_strange_number_is_put_into_a_bin_once_it_is_said_to_be_new(stocked_house: House) -> None:
    phone = stocked_house.phone()
    bought: dict[str, Any] = {"part": "SPARR", "pieces": 1, "from": "bought", "to": "A"}
    assert ask(phone, "put", **bought).json()["asks"] == "new_part"
    assert ask(phone, "put", "document-2", **bought, new_part=True).status_code == 200


def test_count_by_weight_says_how_sure_it_is(phone: Phone, house: House) -> None:
    answer = ask(phone, "count-weighed", **SCALE, inside=True)
    assert answer.json()["words"] == [
        "50 x AN3-5A counted in crate 2 OF 2 bag H1", "the scale tells it to the piece", WEIGHED
    ]  # fmt: skip
    assert there(house.bench, BAG) == {Item("AN3-5A", Hand.NONE): 50}


def test_rough_scale_counts_about(phone: Phone) -> None:
    words = ask(phone, "count-weighed", **{**SCALE, "step": "5 g"}).json()["words"]
    assert words[0].startswith("about 4")
    assert "exact" in words[1]


@pytest.mark.parametrize(
    ("wrong", "words"),
    [
        ({"gross": "212.4"}, "212.4"),
        ({"sample": ""}, "sample"),
        ({"sample_pieces": "0"}, "piece"),
        ({"how": "perhaps"}, "no way to count"),
        ({"part": "AN3-5AA"}, "looks like"),
    ],
)
def test_weighing_that_isnt_clear_is_refused(
    phone: Phone, house: House, wrong: dict[str, str], words: str
) -> None:
    answer = ask(phone, "count-weighed", **{**SCALE, **wrong})
    assert answer.status_code in {404, 409}
    assert words in answer.json()["refused"]
    assert there(house.bench, BAG) == {}


def test_page_of_a_row_offers_the_scale_for_what_is_counted(phone: Phone) -> None:
    page = phone.get("/T2/count?crate=2&part=AN3-5A&bag=H1").text
    assert 'action="/T2/act/count-weighed"' in page
    pair = phone.get("/T2/count?crate=1&part=RIB-1").text
    assert "Count the LEFT ones by weight" in pair
    assert "Count the RIGHT ones by weight" in pair
