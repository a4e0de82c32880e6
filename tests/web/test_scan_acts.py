"""Scans over the network: chained by keys, so that a server may stop between any two."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from inventory.core.items import Item, Measure
from inventory.core.lists.packing import PackingList
from inventory.core.places import Place, PlaceKind
from inventory.core.planning.plan import Need, Plan, Step
from inventory.jobs.bench.undoing import history
from inventory.jobs.lists.unpacking import take_in
from inventory.jobs.planning.planning import take_in_plan
from tests.jobs.bench.test_scanning import new_slip
from tests.jobs.conftest import line
from tests.jobs.shelf import bin_, stocked, taking, there
from tests.web.conftest import ask

if TYPE_CHECKING:
    from tests.web.conftest import House, Phone

STEP = Place(PlaceKind.STEP, "10-02")


def scan(phone: Phone, key: str, text: str, after: str = "", at: int = 0) -> dict[str, Any]:
    answer = ask(phone, "scan", slip=f"scan-key-{key}", text=text, at=at,
                 after=f"scan-key-{after}" if after else "")  # fmt: skip
    return dict(answer.json())


def test_scans_are_chained_by_the_key_of_the_one_before(stocked_house: House) -> None:
    phone = stocked_house.phone()
    assert scan(phone, "1", "10-02")["next"] == "step 10-02 - next: part"
    assert scan(phone, "2", "A", after="1", at=5000)["answer"] == "NOTED"
    done = scan(phone, "3", "SPAR", after="2", at=9000)
    assert (done["answer"], done["words"]) == ("OK", ["1 x SPAR from bin A to step 10-02"])
    assert scan(phone, "4", "SPAR", after="3", at=9300)["answer"] == "QUESTION"
    assert scan(phone, "5", "ZUNDO", after="4", at=12000)["answer"] == "UNDONE"
    assert there(stocked_house.bench, STEP) == {}
    assert "state" not in done


def test_scan_of_another_session_begins_anew(stocked_house: House) -> None:
    phone = stocked_house.phone()
    scan(phone, "1", "10-02")
    assert scan(phone, "2", "SPAR")["words"] == ["SPAR: from which bin?"]


def test_scan_after_one_that_never_came_is_refused(phone: Phone) -> None:
    answer = scan(phone, "2", "10-02", after="1")
    assert "isn't in the record" in answer["refused"]


def test_wrong_hand_records_nothing_but_its_answer(stocked_house: House) -> None:
    phone = stocked_house.phone()
    before = len(history(stocked_house.bench))
    scan(phone, "1", "10-02")
    scan(phone, "2", "B", after="1", at=2000)
    assert scan(phone, "3", "RIB-1", after="2", at=4000)["answer"] == "QUESTION"
    assert scan(phone, "4", "L", after="3", at=6000)["answer"] == "NOT OK"
    assert len(history(stocked_house.bench)) == before


def test_scan_by_form_shows_verdict_and_what_is_set(stocked_house: House) -> None:
    phone = stocked_house.phone()
    first = phone.act("scan", slip="form-scan-1", then="/T2/scan", text="10-02")
    page = phone.get(first.headers["location"]).text
    assert "step 10-02 - next: part" in page
    assert '<input type="hidden" name="after" value="form-scan-1">' in page
    second = phone.act(
        "scan", slip="form-scan-2", then="/T2/scan", text="SPAR", after="form-scan-1"
    )
    page = phone.get(second.headers["location"]).text
    assert 'class="verdict ok"' in page
    assert "1 x SPAR from bin A to step 10-02" in page


def test_sealant_isnt_scanned_out_by_pieces(house: House) -> None:
    """Of what is measured a scan says no amount: refused, and YES doesn't let it through."""
    volume = Measure.VOLUME
    lines = (line("SEAL", 2, 600 * 10**9, crate="3", measure=volume, unit="MLT"),)
    take_in(house.bench, PackingList(source="x", sha256="e" * 64, lines=lines), new_slip())
    stocked(house.bench, new_slip, ("S", taking("SEAL", 150 * 10**9)))
    need = Need(step="10-01", part="SEAL", quantity=30 * 10**9, measure=volume)
    plan = Plan(steps=(Step(code="10-01", title="Seal"),), needs=(need,), sha256="f" * 64)
    take_in_plan(house.bench, plan, new_slip())
    phone = house.phone()
    after, said = "", []
    for number, text in enumerate(("S", "SEAL", "30", "10-01", "ZYES")):
        after_it = f"sealed-{number}"
        content = ask(phone, "scan", slip=after_it, text=text, after=after).json()
        said.append((content["answer"], content["words"][0]))
        after = after_it
    assert said[1] == ("NOTED", "SEAL without a hand: 150 ml in S")
    assert said[3] == ("NOT OK", "SEAL is measured out, not counted: how much of it?")
    assert said[4][0] == "NOT OK"
    assert there(house.bench, bin_("S")) == {Item("SEAL"): 150 * 10**9}
