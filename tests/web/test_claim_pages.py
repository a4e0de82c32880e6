"""Reports and lists from a page: written, taken along, sent; lists tied to their shipment."""

from __future__ import annotations

from io import BytesIO
from typing import TYPE_CHECKING

import pytest
from openpyxl import load_workbook

from tests.web.conftest import ask

if TYPE_CHECKING:
    from tests.web.conftest import House, Phone

REPORT = "/T2/act/write-report"


@pytest.fixture
def claiming(house: House) -> Phone:
    """A shipment that came today, its list tied to it, its first crate counted: a hand is short."""
    phone = house.phone()
    facts = {"supplier": "Curlew Kits", "carriage": "road", "delivered_on": "2026-11-25"}
    counted = {"left_pieces": "2", "right_pieces": "0"}
    for answer in (
        ask(phone, "record-delivery", "came-in-1", **facts),
        ask(phone, "tie-lists", "ties-list-1", delivery=1, lists="1"),
        ask(phone, "open-crate", "opens-it", crate="1"),
        ask(phone, "count-sides", "counts-it", crate="1", part="RIB-1", **counted),
        ask(phone, "close-crate", "closes-it", crate="1"),
    ):
        assert answer.status_code == 200, answer.text
    return phone


def test_list_is_tied_to_its_shipment_from_its_page(phone: Phone) -> None:
    ask(phone, "record-delivery", supplier="Curlew Kits")
    assert "It came with this one" in phone.get("/T2/shipment?number=1").text
    assert phone.act("tie-lists", delivery="1", lists="1").status_code == 303
    page = phone.get("/T2/shipment?number=1").text
    assert "It came with this one" not in page
    assert phone.get("/api/v1/T2/deliveries").json()[0]["lists"] == [1]


@pytest.mark.parametrize(
    ("lists", "words"),
    [("9", "no packing list 9"), ("", "which packing list"), ("one", "is not a count")],
)
def test_what_is_no_list_isnt_tied(phone: Phone, lists: str, words: str) -> None:
    ask(phone, "record-delivery", supplier="Curlew Kits")
    answer = ask(phone, "tie-lists", "ties-it-1", delivery=1, lists=lists)
    assert words in answer.json()["refused"]
    assert phone.get("/api/v1/T2/deliveries").json()[0]["lists"] == []


def test_report_is_written_read_and_sent_from_a_page(claiming: Phone) -> None:
    page = claiming.get("/T2/shipment?number=1").text
    assert "Not told yet" in page
    assert f'action="{REPORT}"' in page
    told = {"to": "supplier", "delivery": "1", "recipient": "Curlew Kits; Slip Road 2"}
    assert claiming.act("write-report", **told).status_code == 303
    page = claiming.get("/T2/shipment?number=1").text
    assert "Report 1 is written" in page
    paper = claiming.get("/T2/reports/1.pdf")
    assert paper.headers["content-type"] == "application/pdf"
    assert paper.headers["content-disposition"] == 'attachment; filename="report-1.pdf"'
    assert paper.content.startswith(b"%PDF-")
    assert claiming.act("report-sent", report="1", how="e-mail").status_code == 303
    page = claiming.get("/T2/shipment?number=1").text
    assert "sent, e-mail" in page
    assert f'action="{REPORT}"' not in page
    (claim,) = claiming.get("/api/v1/T2/claims").json()
    assert (claim["told"], claim["report"], claim["delivery"]) == (True, 1, 1)


def test_workbooks_hold_the_findings(claiming: Phone) -> None:
    ask(claiming, "write-report", "writes-it", to="supplier", recipient="Curlew Kits")
    for path in ("/T2/findings.xlsx", "/T2/findings.xlsx?crate=1", "/T2/reports/1.xlsx"):
        answer = claiming.get(path)
        assert answer.status_code == 200
        sheet = load_workbook(BytesIO(answer.content)).active
        assert sheet is not None
        assert any("RIB-1" in map(str, row) for row in sheet.iter_rows(values_only=True)), path


@pytest.mark.parametrize("name", ["2.pdf", "1.txt", "x.pdf", "1", "..pdf", "-1.pdf"])
def test_report_that_isnt_there_is_not_found(claiming: Phone, name: str) -> None:
    ask(claiming, "write-report", "writes-it", to="supplier", recipient="Curlew Kits")
    assert claiming.get(f"/T2/reports/{name}").status_code == 404


def test_report_needs_somebody_to_write_to(phone: Phone, claiming: Phone) -> None:
    answer = ask(phone, "write-report", to="nobody")
    assert answer.status_code == 422
    answer = ask(claiming, "write-report", "to-carrier", to="carrier")
    assert "nothing to tell the carrier" in answer.json()["refused"]
