from __future__ import annotations

from datetime import date

from inventory.core.items import Hand
from inventory.documents.order_list import WantedLine, order_list_pdf, order_list_table
from inventory.documents.tables import from_csv, to_csv
from tests.documents.pages import HEAD, outside, words

LINES = (
    WantedLine(part="AN3-5A", quantity="2", why="OWED: claim it", steps="13-02", claimed=True,
               supplier="Curlew Slip Kit Works", needed_by=date(2026, 5, 1)),
    WantedLine(part="T2-RU-0412", quantity="1", why="short", hand=Hand.RIGHT,
               supplier="Curlew Slip Kit Works", description="rib, nose",
               order_by=date(2026, 4, 1), needed_by=date(2026, 5, 1), price="3.10 EUR"),
    WantedLine(part="T2-ST-0075", quantity="6 x 75 mm", sticks="1 x 48 in", why="short"),
)  # fmt: skip


def test_the_list_names_supplier_pieces_why_and_days() -> None:
    text = words(order_list_pdf(HEAD, LINES))
    for told in (
        "Curlew Slip Kit Works",
        "No supplier known",
        "3 lines; 1 of them are owed: claim them, don't buy them.",
        "RIGHT",
        "T2-RU-0412",
        "buy 1 x 48 in",
        "OWED: claim it: 13-02",
        "by 2026-05-01",
        "order 2026-04-01",
        "3.10 EUR",
    ):
        assert told in text


def test_the_table_keeps_numbers_and_days_as_such() -> None:
    rows = order_list_table(LINES).rows
    assert [row[4] for row in rows] == [2, 1, "6 x 75 mm"]
    assert rows[0][8] == date(2026, 5, 1)
    read = from_csv(to_csv(order_list_table(LINES)))
    assert read[2][:4] == ["Curlew Slip Kit Works", "T2-RU-0412", "RIGHT", "rib, nose"]


def test_an_empty_list_says_so() -> None:
    assert "0 lines." in words(order_list_pdf(HEAD, ()))


def test_nothing_stands_in_the_margin() -> None:
    assert outside(order_list_pdf(HEAD, LINES * 30), 10) == []
