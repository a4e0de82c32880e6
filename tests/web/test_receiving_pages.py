"""Shipments, lots, cuts and photographs over the network, each from its form to its page."""

from __future__ import annotations

from datetime import date
from hashlib import sha256
from io import BytesIO
from typing import TYPE_CHECKING, Any

import pytest
from PIL import Image

from inventory.core.items import Hand, Item, Measure
from inventory.core.lists.packing import PackingList
from inventory.core.measures.lengths import parse_length
from inventory.core.places import Place, PlaceKind
from inventory.core.planning.plan import Need, NeedKind, Plan, Step
from inventory.jobs.bench.finding_items import Asked
from inventory.jobs.bench.putting_away import Putting, put
from inventory.jobs.lists.unpacking import take_in
from inventory.jobs.planning.planning import take_in_plan
from inventory.jobs.receiving.counting import TypedCount, count_typed
from inventory.jobs.receiving.photographs import photographs
from inventory.jobs.receiving.receiving import close_crate, open_crate
from tests.jobs.bench.test_scanning import new_slip
from tests.jobs.conftest import line
from tests.jobs.shelf import bin_, taking, there
from tests.web.conftest import ask
from tests.web.test_interface import misfits, shape_of

if TYPE_CHECKING:
    from httpx2 import Response

    from tests.web.conftest import House, Phone

ML = 10**9
"""Picolitres of a millilitre."""


@pytest.fixture
def shop(stocked_house: House) -> House:
    """Add to the shelf: sealant of two lots, one past its date, and a stick to be cut up."""
    bench = stocked_house.bench
    lines = (
        line("SEAL", 2, 600 * ML, crate="3", measure=Measure.VOLUME, unit="MLT"),
        line("TUBE", 3, 1, crate="3", length=parse_length("48in")),
    )
    take_in(bench, PackingList(source="more.xlsx", sha256="c" * 64, lines=lines), new_slip())
    for lot, day in (("7A1", date(2026, 1, 31)), ("8B2", date(2027, 1, 31))):
        asked = Asked(part="SEAL", lot=lot)
        typed = TypedCount(crate="3", asked=asked, pieces="150 ml", expires=day)
        count_typed(bench, typed, new_slip())
        put(bench, [Putting(taking("SEAL", 150 * ML, Place(PlaceKind.CRATE, "3"), lot=lot), "B")],
            new_slip())  # fmt: skip
    count_typed(bench, TypedCount(crate="3", asked=Asked(part="TUBE"), pieces="1"), new_slip())
    put(bench, [Putting(taking("TUBE", 1, Place(PlaceKind.CRATE, "3")), "A")], new_slip())
    steps = (Step(code="10-01", title="Seal it"), Step(code="10-02", title="Cut it"))
    cut = Need(step="10-02", part="TUBE", quantity=3, kind=NeedKind.CUT,
               length=parse_length("10in"), sheet="S4", find_number="7")  # fmt: skip
    seal = Need(step="10-01", part="SEAL", quantity=30 * ML, measure=Measure.VOLUME)
    take_in_plan(
        bench,
        Plan(source="plan2.xlsx", sha256="d" * 64, steps=steps, needs=(seal, cut)),
        new_slip(),
    )
    return stocked_house


def test_amounts_are_said_and_taken_with_their_unit(shop: House) -> None:
    phone = shop.phone()
    page = phone.get("/T2/bin?name=B").text
    assert "150 ml" in page
    assert str(150 * ML) not in page
    fields = {"part": "SEAL", "lot": "8B2", "from": "B", "step": "10-01"}
    bare = phone.act("issue", pieces="30", **fields)
    assert bare.status_code == 409
    assert "has no unit" in bare.text or "unit" in bare.text
    assert phone.act("issue", pieces="30 ml", **fields).status_code == 303
    assert there(shop.bench, bin_("B"))[Item("SEAL", lot="8B2")] == 120 * ML
    document = ask(phone, "put", part="SEAL", lot="8B2", pieces=20 * ML, to="A", **{"from": "B"})
    assert document.json()["words"] == ["20 ml x SEAL lot 8B2 from bin B to bin A"]
    for path in ("", "bins", "history", "part?number=SEAL", "step?code=10-01", "crate?crate=3"):
        text = phone.get(f"/T2/{path}").text
        assert f"{ML}"[1:] not in text, path


def test_lot_past_its_date_is_marked_and_issued_only_by_a_named_decision(shop: House) -> None:
    phone = shop.phone()
    assert "PAST ITS DATE 2026-01-31" in phone.get("/T2/bin?name=B").text
    assert "PAST ITS DATE 2026-01-31" in phone.get("/T2/").text
    fields = {"part": "SEAL", "lot": "7A1", "pieces": "30 ml", "from": "B", "step": "10-01"}
    refused = phone.act("issue", **fields)
    assert refused.status_code == 409
    assert "past its date" in refused.text
    assert phone.act("issue", expired="yes", **fields).status_code == 409
    assert phone.act("issue", expired="yes", why="test strip, Ana", **fields).status_code == 303


def test_lots_are_listed_recorded_traced_and_held(shop: House) -> None:
    phone = shop.phone()
    page = phone.get("/T2/lots").text
    assert page.index("7A1") < page.index("8B2")
    assert "expired" in page
    answer = phone.act("record-lot", part="SEAL", lot="8B2", opened="2026-03-01", open_days="10",
                       certificate="C-44")  # fmt: skip
    assert answer.status_code == 303
    assert "2026-03-11" in phone.get("/T2/lots").text
    assert "C-44" in phone.get("/T2/lot?part=SEAL&lot=8B2").text
    assert phone.act("hold-lot", lot="8B2", part="", why="bulletin 12").status_code == 303
    assert "hold HOLD" in phone.get("/T2/lot?part=SEAL&lot=8B2").text
    assert "bulletin 12" in phone.get("/T2/hold").text
    assert phone.act("hold-lot", lot="8B2", why="").status_code == 409
    nothing = ask(phone, "hold-lot", lot="8B2", part="", why="again")
    assert nothing.json()["words"] == ["nothing of it lies in bins or crates"]
    assert phone.get("/T2/lot?lot=zzz").status_code == 404


def test_shipment_is_recorded_with_its_exceptions_and_whom_to_tell_by_when(house: House) -> None:
    phone = house.phone()
    assert "No shipment is recorded yet" in phone.get("/T2/shipments").text
    facts = {"supplier": "Curlew", "carrier": "Harbour Freight", "carriage": "us-truck",
             "delivered_on": "2026-03-10", "packages_advised": "2", "packages_counted": "1",
             "country": "us", "late": "yes"}  # fmt: skip
    assert phone.act("record-delivery", **facts).status_code == 303
    said = ask(phone, "except-package", delivery=1, crate="1", state="harmed",
               words="end panel punctured")  # fmt: skip
    assert said.json()["words"] == [
        "recorded of delivery 1: crate 1 OF 2: end panel punctured",
        "Write it on BOTH copies of the driver's paper too.",
    ]
    open_crate(house.bench, "1", new_slip())
    count = TypedCount(crate="1", asked=Asked(part="SPAR"), pieces="1", damaged="1")
    count_typed(house.bench, count, new_slip())
    close_crate(house.bench, "1", new_slip())
    page = phone.get("/T2/shipment?number=1").text
    for words in ("delivered on 2026-03-10, late", "1 counted, 2 advised: 1 MISSING",
                  "end panel punctured", "NOT on the driver's paper", "CARRIER",
                  "send by", "not legal advice"):  # fmt: skip
        assert words in page, words
    assert "CARRIER" in phone.get("/T2/").text
    mended = phone.act("record-delivery", delivery="1", packages_counted="2")
    assert mended.status_code == 303
    assert "2 counted, 2 advised" in phone.get("/T2/shipment?number=1").text


REFUSED: list[tuple[str, dict[str, Any], int, str]] = [
    ("record-delivery", {"delivery": "9"}, 404, "there is no delivery 9"),
    ("record-delivery", {"carriage": "mule"}, 409, "mule"),
    ("record-delivery", {"delivered_on": "14.3."}, 409, "14.3."),
    ("record-delivery", {"packages_counted": "-1"}, 409, "-1"),
    ("except-package", {"delivery": "1", "words": "x", "state": "odd"}, 409, "no state"),
    ("except-package", {"delivery": "9", "words": "wet"}, 404, "no delivery"),
    ("record-lot", {"part": "NOPE", "lot": "1"}, 404, "no part NOPE"),
    ("record-lot", {"part": "SPAR", "lot": "1", "expires": "sometime"}, 409, "sometime"),
    ("record-cut", {"part": "ANGLE", "pieces": "11-1/2in"}, 409, "lies in a bin"),
    ("record-cut", {"part": "ANGLE", "pieces": "four"}, 409, "four"),
]


@pytest.mark.parametrize(("name", "fields", "status", "words"), REFUSED)
def test_what_cant_be_is_refused_with_words(
    house: House, name: str, fields: dict[str, str], status: int, words: str
) -> None:
    answer = house.phone().act(name, **fields)
    assert (answer.status_code, words in answer.text) == (status, True), answer.text


def test_cuts_are_drawn_and_recorded(shop: House) -> None:
    phone = shop.phone()
    page = phone.get("/T2/cutting?step=10-02").text
    for words in ("nothing is to be bought", "S4 7", "3x10 in", "Record the cut", "<svg"):
        assert words in page, words
    assert "<style" not in page
    assert "<table" in page
    assert "254 mm" in phone.get("/T2/cutting?unit=mm").text
    done = ask(phone, "record-cut", part="TUBE", length="48in", pieces="3x10in", to="step 10-02")
    assert done.status_code == 200, done.text
    assert done.json()["words"][-1].startswith("mark each remnant with its length, 17-5/8 in")
    step = there(shop.bench, Place(PlaceKind.STEP, "10-02"))
    assert step == {Item("TUBE", length=parse_length("10in")): 3}
    assert "No open step wants pieces cut" in phone.get("/T2/cutting").text


def picture(colour: str = "red") -> bytes:
    made = Image.new("RGB", (64, 48), colour)
    kept = made.getexif()
    kept[0x010F] = "Camera of a real person"
    file = BytesIO()
    made.save(file, "JPEG", exif=kept)
    return file.getvalue()


def send(phone: Phone, raw: bytes, name: str = "dent.jpg", **fields: str) -> Response:
    form = {"slip": sha256(raw).hexdigest()[:20], "then": "/T2/crate?crate=1", **fields}
    kept = phone.client.post("/T2/photos", data=form, files={"photo": (name, raw, "image/jpeg")})
    answer: Response = kept
    return answer


@pytest.mark.parametrize("query", ["", "?step=10-02"])
def test_cutting_plan_is_a_document_too(shop: House, query: str) -> None:
    answer = shop.phone().get(f"/api/v1/T2/cutting{query}").json()
    assert misfits(answer, shape_of("get", "cutting", 200)) == []
    (tube,) = answer
    (stick,) = tube["sticks"]
    assert (stick["bin"], stick["to_buy"]) == ("A", False)
    length = parse_length("10in")
    piece = {"step": "10-02", "find_number": "7", "length_nm": length}
    assert stick["pieces"] == [piece] * 3
    cut = 3 * length + 3 * stick["kerf_nm"]
    assert stick["remnant_nm"] == stick["length_nm"] - cut


def test_photograph_is_kept_without_its_metadata_and_shown_where_it_belongs(house: House) -> None:
    phone = house.phone()
    raw = picture()
    assert send(phone, raw, crate="1", part="SPAR", caption="bent").status_code == 303
    assert send(phone, raw, crate="1", part="SPAR", caption="bent").status_code == 303
    (kept,) = photographs(house.bench)
    address = f"/T2/photos/{kept.kept.file_name}"
    for page in ("crate?crate=1", "count?crate=1&part=SPAR", "part?number=SPAR"):
        assert address in phone.get(f"/T2/{page}").text, page
    shown = phone.get(address)
    assert shown.headers["content-type"] == "image/jpeg"
    assert shown.headers["x-content-type-options"] == "nosniff"
    assert b"real person" not in shown.content
    with Image.open(BytesIO(shown.content)) as opened:
        assert not opened.getexif()


@pytest.mark.parametrize(
    "name", ["../x.jpg", "..\\x.jpg", "C:\\x.jpg", "CON", "x" * 300 + ".jpg", "a\u202egpj.exe"]
)
def test_photographs_name_is_never_a_path(house: House, name: str) -> None:
    phone = house.phone()
    answer = send(phone, picture(), name, crate="1")
    kept = photographs(house.bench)
    if answer.status_code == 303:
        assert len(kept) == 1
        assert len(kept[0].kept.name) <= 200
        assert "\u202e" not in phone.get("/T2/crate?crate=1").text
    else:
        assert (answer.status_code, kept) == (409, [])


@pytest.mark.parametrize(
    ("raw", "status"),
    [(b"", 422), (b"<svg xmlns='x'/>", 409), (b"GIF89a", 409), (b"\xff\xd8\xff cut off", 409)],
)
def test_what_is_no_picture_is_refused(house: House, raw: bytes, status: int) -> None:
    assert send(house.phone(), raw, crate="1").status_code == status
    assert photographs(house.bench) == []


@pytest.mark.parametrize("name", ["x", "../../etc/passwd", "0" * 64 + ".jpg", "0" * 64 + ".svg"])
def test_no_other_file_is_shown_as_a_photograph(house: House, name: str) -> None:
    assert house.phone().get(f"/T2/photos/{name}").status_code == 404


def test_hand_of_a_part_is_kept_on_hold_and_release(stocked_house: House) -> None:
    """The forms of hold, release and scrap name the very item that is shown."""
    phone = stocked_house.phone()
    fields = {"part": "RIB-1", "hand": "left", "pieces": "1", "from": "B", "why": "dent"}
    assert phone.act("hold", **fields).status_code == 303
    page = phone.get("/T2/hold").text
    assert 'name="hand" value="left"' in page
    assert "Ana: dent" in page
    assert there(stocked_house.bench, bin_("B"))[Item("RIB-1", Hand.LEFT)] == 1
