"""Acts by form and by document: done once, answered once, refused in words."""

from __future__ import annotations

import json
from concurrent.futures import ThreadPoolExecutor
from typing import TYPE_CHECKING, Any

import pytest

from inventory.core.items import Hand, Item
from inventory.core.places import Place, PlaceKind
from inventory.jobs.answering import Question, answered
from inventory.jobs.bench.undoing import history
from inventory.web.acts.act import refused_answer
from tests.jobs.shelf import bin_, there
from tests.web.conftest import ask

if TYPE_CHECKING:
    from tests.web.conftest import House

CRATE = Place(PlaceKind.CRATE, "1 OF 2")


ROWS: list[tuple[str, dict[str, Any], str]] = [
    ("put", {"part": "SPAR", "pieces": 1, "from": "A", "to": "B"}, "1 x SPAR from bin A to bin B"),
    ("recount", {"part": "SPAR", "pieces": 3, "bin": "A"}, "1 x SPAR from difference to bin A"),
    ("recount", {"part": "SPAR", "pieces": 2, "bin": "A"}, "the record agrees with the count"),
    (
        "hold",
        {"part": "SPAR", "pieces": 1, "from": "A", "why": "dent"},
        "1 x SPAR from bin A to hold HOLD",
    ),
    (
        "issue",
        {"part": "RIB-1", "hand": "left", "pieces": 2, "step": "10-01"},
        "2 x RIB-1 LEFT from bin B to step 10-01",
    ),
    (
        "issue",
        {"part": "SPAR", "pieces": 2, "step": "10-02", "over": True, "from": "A"},
        "2 x SPAR from bin A to step 10-02",
    ),
    ("scrap", {"part": "SPAR", "pieces": 1, "from": "A", "why": "bent"}, "1 x SPAR from bin A to"),
    ("add-bins", {"names": "C-1..C-3, D", "shelf": "wall"}, "4 added: C-1, C-2, C-3, D"),
    ("open-crate", {"crate": "1"}, "crate 1 OF 2 is opened"),
    ("close-crate", {"crate": "1 of 2"}, "crate 1 OF 2 is closed"),
    ("start-step", {"step": "10-01"}, "step 10-01 is started"),
    ("finish-step", {"step": "10-03"}, "step 10-03 is done"),
    ("undo", {"act": 4}, "act 4 (bin put) is undone"),
    ("count", {"crate": "1", "part": "SPAR", "pieces": "1"}, "1 x SPAR counted in crate 1 OF 2"),
    (
        "count",
        {"crate": "1", "part": "SPAR", "pieces": "3", "damaged": "1", "wrong": "1"},
        "1 x SPAR counted in crate 1 OF 2; on hold: 1 damaged, 1 wrong",
    ),
    (
        "count-sides",
        {"crate": "1", "part": "RIB-1", "left_pieces": "2", "right_pieces": "1"},
        "2 x RIB-1 LEFT counted in crate 1 OF 2",
    ),
]


@pytest.mark.parametrize(("name", "fields", "words"), ROWS, ids=[row[2][:40] for row in ROWS])
def test_act_by_document_and_by_form_say_the_same(
    stocked_house: House, name: str, fields: dict[str, Any], words: str
) -> None:
    phone = stocked_house.phone()
    by_document = ask(phone, name, **fields)
    assert by_document.status_code == 200
    assert by_document.json()["words"][0].startswith(words)
    # the same slip by a form is the same act: nothing is done, and its page says it again
    text = {key: str(value) for key, value in fields.items() if value is not True}
    text |= {key: "yes" for key, value in fields.items() if value is True}
    by_form = phone.act(name, slip="document-1", then="/T2/bins", **text)
    assert by_form.status_code == 303
    assert by_form.headers["location"] == "/T2/bins?done=document-1"
    page = phone.get(by_form.headers["location"]).text
    assert "RECORDED" in page
    assert words in page


REFUSALS: list[tuple[str, dict[str, Any], int, str]] = [
    ("put", {"part": "SPAR", "pieces": 9, "from": "A", "to": "B"}, 409, "9 of SPAR asked for"),
    ("put", {"part": "SPAR", "pieces": 1, "from": "A", "to": "Z"}, 404, "there is no bin Z"),
    ("put", {"part": "SPARR", "pieces": 1, "from": "A", "to": "B"}, 404, "no part SPARR is known"),
    ("hold", {"part": "SPAR", "pieces": 1, "from": "A", "why": ""}, 409, "why are they held back"),
    (
        "issue",
        {"part": "RIB-1", "pieces": 1, "step": "10-02", "hand": "left"},
        409,
        "step 10-02 asks for no RIB-1",
    ),
    ("count", {"crate": "1", "part": "SPAR", "pieces": "2.5"}, 409, "pieces are whole"),
    ("count", {"crate": "9", "part": "SPAR", "pieces": "2"}, 404, "no crate"),
    ("count", {"crate": "1", "part": "SPAR", "pieces": "1", "how": "x"}, 409, "no way to count"),
    ("count-sides", {"crate": "1", "part": "RIB-1"}, 409, "no number was given for either side"),
    ("start-step", {"step": "10-02"}, 409, "comes after 10-01"),
    ("undo", {"act": 99}, 404, "there is no act 99"),
]


@pytest.mark.parametrize(
    ("name", "fields", "status", "words"), REFUSALS, ids=[row[3] for row in REFUSALS]
)
def test_refusal_says_why_and_stores_nothing_of_the_act(
    stocked_house: House, name: str, fields: dict[str, Any], status: int, words: str
) -> None:
    phone = stocked_house.phone()
    before = len(history(stocked_house.bench))
    answer = ask(phone, name, **fields)
    assert answer.status_code == status
    assert words in answer.json()["refused"]
    assert len(history(stocked_house.bench)) == before
    page = phone.act(name, then="/T2/bins", **{key: str(value) for key, value in fields.items()})
    assert page.status_code == status
    assert "NOT RECORDED" in page.text


def test_left_counted_and_right_refused_counts_neither(stocked_house: House) -> None:
    sides = {"left_pieces": "2", "right_pieces": "two"}
    answer = ask(stocked_house.phone(), "count-sides", crate="1", part="RIB-1", **sides)
    assert answer.status_code == 409
    assert there(stocked_house.bench, CRATE) == {}


def test_left_and_right_of_two_numbers_are_counted_apart(stocked_house: House) -> None:
    fields = {"left_part": "RIB-1", "left_pieces": "2", "right_part": "SPAR", "right_pieces": "1"}
    ask(stocked_house.phone(), "count-sides", crate="1", part="RIB-1", **fields)
    assert there(stocked_house.bench, CRATE) == {
        Item("RIB-1", Hand.LEFT): 2,
        Item("SPAR", Hand.RIGHT): 1,
    }


def test_same_slip_gets_its_first_answer_again(stocked_house: House) -> None:
    phone = stocked_house.phone()
    fields: dict[str, Any] = {"part": "SPAR", "pieces": 1, "from": "A", "to": "B"}
    first = ask(phone, "put", **fields)
    second = ask(phone, "put", **fields)
    assert first.json() == {"words": ["1 x SPAR from bin A to bin B"], "again": False}
    assert second.json() == {"words": ["1 x SPAR from bin A to bin B"], "again": True}
    assert there(stocked_house.bench, bin_("B"))[Item("SPAR")] == 1


def test_refusal_is_a_first_answer_too(stocked_house: House) -> None:
    phone = stocked_house.phone()
    fields: dict[str, Any] = {"part": "SPAR", "pieces": 2, "from": "B", "to": "A"}
    refused = ask(phone, "put", slip="later-possible", **fields)
    ask(phone, "put", slip="moves-them", part="SPAR", pieces=2, to="B", **{"from": "A"})
    again = ask(phone, "put", slip="later-possible", **fields)
    assert (again.status_code, again.json()["refused"]) == (409, refused.json()["refused"])
    assert again.json()["again"] is True


def test_same_slip_for_something_else_is_a_conflict(stocked_house: House) -> None:
    phone = stocked_house.phone()
    ask(phone, "put", part="SPAR", pieces=1, to="B", **{"from": "A"})
    other = ask(phone, "put", part="SPAR", pieces=2, to="B", **{"from": "A"})
    assert other.status_code == 409
    assert "asked for something else" in other.json()["refused"]
    assert ask(phone, "scrap", part="SPAR", pieces=1, why="x", **{"from": "A"}).status_code == 409


def test_twelve_posts_of_one_slip_at_once_are_one_act(stocked_house: House) -> None:
    phone = stocked_house.phone()
    fields: dict[str, Any] = {"part": "AN3-5A", "pieces": 2, "from": "A", "to": "B"}
    with ThreadPoolExecutor(12) as pool:
        answers = list(pool.map(lambda _: ask(phone, "put", **fields).json(), range(12)))
    assert sorted(answer["again"] for answer in answers) == [False] + [True] * 11
    assert there(stocked_house.bench, bin_("B"))[Item("AN3-5A")] == 2


def test_three_phones_issue_the_last_pieces_once(stocked_house: House) -> None:
    phones = [stocked_house.phone(f"phone {number}") for number in range(3)]
    fields: dict[str, Any] = {"part": "RIB-1", "hand": "right", "pieces": 2, "step": "10-01"}

    def issue(number: int) -> int:
        return ask(phones[number], "issue", slip=f"issuer-{number}", **fields).status_code

    with ThreadPoolExecutor(3) as pool:
        assert sorted(pool.map(issue, range(3))) == [200, 409, 409]


def test_act_carries_who_and_with_which_device(stocked_house: House) -> None:
    ask(stocked_house.phone("left phone", "Cleo"), "open-crate", crate="1")
    slip = history(stocked_house.bench)[0].recorded.slip
    assert (slip.person, slip.device, slip.key) == ("Cleo", "left phone", "document-1")


def test_store_that_cant_be_written_gives_no_answer_to_keep(
    stocked_house: House, monkeypatch: pytest.MonkeyPatch
) -> None:
    import sqlite3  # noqa: PLC0415

    phone = stocked_house.phone()
    fields: dict[str, Any] = {"part": "SPAR", "pieces": 1, "from": "A", "to": "B"}
    with sqlite3.connect(stocked_house.bench.store.address) as other:
        other.execute("BEGIN IMMEDIATE")
        monkeypatch.setattr("inventory.store.opening.engine.PRAGMAS", {"busy_timeout": 10})
        stocked_house.bench.store.engine.dispose()
        locked = ask(phone, "put", **fields)
        other.rollback()
    monkeypatch.undo()
    stocked_house.bench.store.engine.dispose()
    assert locked.status_code == 503
    assert ask(phone, "put", **fields).json()["again"] is False


def test_answer_and_act_are_stored_together_or_not_at_all(house: House) -> None:
    def break_down(_bench: object) -> dict[str, Any]:
        raise RuntimeError("a fault of ours")

    question = Question("answered-1", "x")
    with pytest.raises(RuntimeError):
        answered(house.bench, question, break_down, refused_answer)
    told = answered(house.bench, question, lambda _: {"words": ["done"]}, refused_answer)
    assert (told.content, told.again) == ({"words": ["done"]}, False)
    assert json.dumps(told.content)
