from __future__ import annotations

import datetime as dt
import re
import zlib
from dataclasses import replace
from typing import TYPE_CHECKING

import pypdfium2
import pytest

from inventory.core.errors import InventoryError
from inventory.core.items import Hand
from inventory.documents.bin_map import Lying, MappedBin, bin_map_pdf, bin_map_table
from inventory.documents.lay_out_roll import RollLine, lay_out_roll_pdf, lay_out_table
from inventory.documents.page_head import PageHead, PaperSize
from inventory.documents.paper import Paper
from inventory.documents.paper_table import Column, table
from inventory.documents.pick_list import PickLine, PickList, ShortLine, pick_list_pdf, pick_table
from inventory.documents.receiving_checklist import ExpectedDelivery, receiving_checklist_pdf
from inventory.documents.step_sheet import SheetNeed, StepSheet, step_sheet_pdf, step_table
from inventory.documents.stock_list import StockLine, stock_list_pdf, stock_table
from inventory.documents.wrapping import BIG_NUMBER
from tests.documents.pages import HEAD, LETTER, outside, pages, words
from tests.labels.raster import printed, raster, read_zxing

if TYPE_CHECKING:
    from collections.abc import Callable

LONG = "A description that is much longer than its column and has to be wrapped " * 3
PICKS = PickList(
    step="10-02",
    title="Rivet nose ribs",
    step_id="T20042M",
    lines=tuple(
        PickLine(bin=name, part=f"T2-FL-{number:04d}", description=LONG, hand=hand, quantity="4")
        for number, (name, hand) in enumerate(
            [("B-10", Hand.LEFT), ("B-2", Hand.RIGHT), ("B-2", Hand.NONE), ("A-1", Hand.EITHER)]
        )
    ),
    short=(ShortLine(part="AN3-5A", quantity="6", why="due 2026-12-14"),),
)
STEP = StepSheet(
    step="10-02",
    title="Rivet nose ribs",
    section="10 Floats",
    step_id="T20042M",
    after=("10-01 done",),
    needs=(
        SheetNeed(part="T2-FL-0412", hand=Hand.LEFT, quantity="4", lies_in="B-01: 2", short="2"),
        SheetNeed(part="T2-AL-0001", quantity="as required", note="expires 2027-03"),
    ),
    tools=("Rivet squeezer",),
)
BINS = [
    MappedBin(shelf="Shelf 2", name="B-10", contents=(Lying(part="T2-FL-0412", quantity="4"),)),
    MappedBin(shelf="Shelf 2", name="B-2"),
    MappedBin(
        name="FLOOR",
        contents=tuple(
            Lying(part=f"MS{number:05d}", quantity="100", hand=Hand.LEFT, description=LONG)
            for number in range(60)
        ),
    ),
    MappedBin(
        shelf="Shelf 1",
        name="A-1",
        contents=(Lying(part="T2-FL-0412-WITH-A-LONG-TAIL-9999", quantity="12.5 m"),),
    ),
]
STOCK = [
    StockLine(part="T2-FL-0412", hand=Hand.RIGHT, place="B-2", quantity="4", lot="L7"),
    StockLine(part="T2-FL-0412", hand=Hand.LEFT, place="B-10", quantity="3", state="worked"),
    StockLine(part="=T2", place="A-1", quantity="12.5", unit="m", note="on hold"),
]
ROLL = [
    RollLine(plan_page="F1", find_number="2", part="T2-FL-0412", hand=Hand.RIGHT, quantity="1"),
    RollLine(plan_page="F1", find_number="2", part="T2-FL-0412", hand=Hand.LEFT, quantity="1"),
    RollLine(plan_page="F1", find_number="10", part="T2-RU-1", hand=Hand.EITHER, quantity="2",
             lies_in="B-1"),
    RollLine(plan_page="F1", find_number="10", part="T2-RU-1", quantity="1", missing="missing"),
]  # fmt: skip
DELIVERY = ExpectedDelivery(
    supplier="Lakeside Aerokits " * 5,
    packages=3,
    crates=("1 OF 3", "2 OF 3", "3 OF 3"),
    first_notice_by=dt.date(2026, 12, 2),
)
PAPERS: dict[str, Callable[[PageHead], bytes]] = {
    "pick list": lambda head: pick_list_pdf(head, PICKS),
    "step sheet": lambda head: step_sheet_pdf(head, STEP),
    "bin map": lambda head: bin_map_pdf(head, BINS),
    "stock list": lambda head: stock_list_pdf(head, STOCK * 40),
    "lay-out roll": lambda head: lay_out_roll_pdf(head, "10 Floats", ROLL),
    "receiving checklist": lambda head: receiving_checklist_pdf(head, DELIVERY),
}


@pytest.mark.parametrize("head", [HEAD, LETTER], ids=["a4", "letter"])
@pytest.mark.parametrize("paper", PAPERS.values(), ids=PAPERS)
def test_every_page_says_whose_it_is_and_how_many_there_are(
    paper: Callable[[PageHead], bytes], head: PageHead
) -> None:
    found = pages(paper(head))
    for number, text in enumerate(found, start=1):
        assert "Floatplane Tarn T2 (kit T2) · store K7F3-92QD · printed 2026-11-25" in text
        assert f"page {number} of {len(found)}" in text
        assert ("seal 4f1c 93ab" in text) is bool(head.seal)


@pytest.mark.parametrize("head", [HEAD, LETTER], ids=["a4", "letter"])
@pytest.mark.parametrize("paper", PAPERS.values(), ids=PAPERS)
def test_nothing_stands_in_the_margin(paper: Callable[[PageHead], bytes], head: PageHead) -> None:
    assert outside(paper(head), 12) == []


@pytest.mark.parametrize("paper", PAPERS.values(), ids=PAPERS)
def test_papers_are_black_white_and_grey(paper: Callable[[PageHead], bytes]) -> None:
    for stream in re.findall(rb"stream\r?\n(.*?)\r?\nendstream", paper(HEAD), re.DOTALL):
        try:
            operators = zlib.decompress(stream)
        except zlib.error:
            continue
        assert not re.search(
            rb"(?<![\w.])(rg|RG|k|K|cs|CS|scn|SCN)(?!\w)", operators[:200_000]
        ) or (b"glyf" in operators or b"beginbfchar" in operators)


@pytest.mark.parametrize("head", [HEAD, LETTER], ids=["a4", "letter"])
def test_pick_list_is_one_page_in_the_order_of_the_bins(head: PageHead) -> None:
    (text,) = pages(pick_list_pdf(head, PICKS))
    places = [text.index(f"T2-FL-{number:04d}") for number in (3, 1, 2, 0)]
    assert places == sorted(places)
    assert "4 lines from 3 bins, 1 line not there" in text
    assert "Not in any bin" in text


def test_pick_list_starts_the_scan_loop() -> None:
    page = printed(raster(pick_list_pdf(HEAD, PICKS), 300))
    assert read_zxing(page) == {("QR", "1WT20042M")}


def test_pick_list_is_turned_where_its_numbers_need_the_width() -> None:
    line = PickLine(bin="LONG-BIN-NAME-0123456789", part="E" * 30, hand=Hand.LEFT, quantity="2")
    pdf = pick_list_pdf(HEAD, PickList(step="1", lines=(line,)))
    size = pypdfium2.PdfDocument(pdf)[0].get_size()
    assert size[0] > size[1]
    assert {line.bin, line.part} <= set(words(pdf).split())
    assert outside(pdf, 12) == []


def test_pick_list_may_be_empty() -> None:
    text = words(pick_list_pdf(HEAD, PickList(step="1", lines=())))
    assert "0 lines from 0 bins" in text
    assert "Short" not in text


def test_headings_stand_again_on_every_page_and_no_row_is_lost() -> None:
    lines = tuple(
        PickLine(bin=f"B-{number}", part=f"P-{number:04d}", quantity="1") for number in range(90)
    )
    found = pages(pick_list_pdf(HEAD, PickList(step="1", lines=lines)))
    assert len(found) > 2
    assert all("Part number" in text for text in found)
    assert re.findall(r"P-\d{4}", "".join(found)) == [f"P-{number:04d}" for number in range(90)]


def test_step_sheet_counts_what_is_short() -> None:
    text = words(step_sheet_pdf(HEAD, STEP))
    assert "Short: 1 of 2 needs." in text
    assert "After: 10-01 done" in text
    assert "Tools that come back" in text


def test_step_sheet_of_a_step_that_needs_nothing() -> None:
    text = words(step_sheet_pdf(HEAD, StepSheet(step="1")))
    assert "After: nothing" in text
    assert "Nothing is short." in text


def test_bin_map_goes_shelf_by_shelf_and_loses_nothing() -> None:
    found = words(bin_map_pdf(HEAD, BINS))
    order = [found.index(word) for word in ("Shelf 1", "A-1", "Shelf 2", "B-2", "B-10", "FLOOR")]
    assert order == sorted(order)
    assert "4 bins, 1 of them empty." in found
    assert set(re.findall(r"MS\d{5}", found)) == {f"MS{number:05d}" for number in range(60)}
    assert "T2-FL-0412-WITH-A-LONG-TAIL-9999" in found


def test_bin_map_as_a_table_has_a_row_for_each_item_and_each_empty_bin() -> None:
    rows = bin_map_table(BINS).rows
    assert len(rows) == 63
    assert rows[:3] == (
        ("Shelf 1", "A-1", "T2-FL-0412-WITH-A-LONG-TAIL-9999", "", "12.5 m", ""),
        ("Shelf 2", "B-2", "", "", "", ""),
        ("Shelf 2", "B-10", "T2-FL-0412", "", "4", ""),
    )


def test_bin_map_takes_an_item_without_a_number() -> None:
    nameless = MappedBin(name="B-1", contents=(Lying(part="", quantity="3"),))
    assert "B-1 3" in words(bin_map_pdf(HEAD, [nameless]))


def test_stock_list_counts_and_sorts() -> None:
    text = words(stock_list_pdf(HEAD, STOCK))
    assert "2 part numbers in 3 places, 3 lines." in text
    assert "12.5 m" in text
    assert "0 part numbers" in words(stock_list_pdf(HEAD, []))


def test_stock_as_a_table_keeps_whole_numbers_as_numbers() -> None:
    assert stock_table(STOCK).rows == (
        ("=T2", "", "", "", "", "A-1", "12.5", "m", "on hold"),
        ("T2-FL-0412", "LEFT", "", "", "worked", "B-10", 3, "pieces", ""),
        ("T2-FL-0412", "RIGHT", "", "L7", "", "B-2", 4, "pieces", ""),
    )


def test_lay_out_puts_left_and_right_of_one_place_side_by_side() -> None:
    text = words(lay_out_roll_pdf(HEAD, "10 Floats", ROLL))
    assert text.count("T2-FL-0412") == 1
    assert text.count("T2-RU-1") == 2  # either side and no hand never share a box
    assert "2 B-1 either side" in text
    assert "1 MISSING" in text
    assert "4 parts of a hand or without; 1 missing." in text
    assert "0 parts" in words(lay_out_roll_pdf(HEAD, "x", []))


def test_lay_out_is_upright_and_turned_where_a_bins_name_would_break() -> None:
    long = "RACK-BEHIND-THE-DOOR-7"
    upright = lay_out_roll_pdf(HEAD, "10 Floats", ROLL)
    turned = lay_out_roll_pdf(HEAD, "10 Floats", [replace(ROLL[0], lies_in=long), *ROLL[1:]])
    assert [_is_turned(upright), _is_turned(turned)] == [False, True]
    assert f"1 {long}" in words(turned)


def _is_turned(paper: bytes) -> bool:
    with pypdfium2.PdfDocument(paper) as pages_:
        wide, high = pages_[0].get_size()
    return bool(wide > high)


def test_pick_list_as_a_table_shows_what_is_short_last() -> None:
    rows = pick_table(PICKS).rows
    assert [row[1] for row in rows] == ["A-1", "B-2", "B-2", "B-10", ""]
    assert rows[1][2:5] == ("4", "T2-FL-0001", "RIGHT")
    assert rows[-1] == ("not there", "", "6", "AN3-5A", "", "", "due 2026-12-14")


def test_step_sheet_as_a_table_has_every_need() -> None:
    assert step_table(STEP).rows == (
        ("4", "T2-FL-0412", "LEFT", "", "B-01: 2", "2", "", ""),
        ("as required", "T2-AL-0001", "", "", "", "", "", "expires 2027-03"),
    )


def test_lay_out_as_a_table_keeps_the_hands_apart() -> None:
    rows = lay_out_table("10 Floats", ROLL).rows
    assert [(row[1], row[3]) for row in rows] == [
        ("2", "RIGHT"),
        ("2", "LEFT"),
        ("10", "EITHER SIDE"),
        ("10", ""),
    ]


def test_a_number_too_long_for_its_column_gets_smaller_but_is_never_cut() -> None:
    paper = Paper(HEAD, "Try")
    columns = (Column("Number", BIG_NUMBER), Column("Words", fill=1.0))
    table(paper, columns, [["N" * 60, "words"]])
    assert "N" * 60 in words(paper.save())


def test_numbers_that_cannot_be_printed_whole_are_refused() -> None:
    columns = (Column("Number", BIG_NUMBER), Column("", BIG_NUMBER), Column("Words", fill=1.0))
    with pytest.raises(InventoryError, match="too long for the page") as refusal:
        table(Paper(HEAD, "Try"), columns, [["N" * 80, "N" * 80, "words"]])
    assert refusal.value.where == "N" * 80


def test_a_row_taller_than_a_page_runs_on() -> None:
    paper = Paper(HEAD, "Try")
    table(paper, (Column("No."), Column("Words", fill=1.0)), [["1", "word " * 4000]])
    pdf = paper.save()
    assert words(pdf).count("word ") == 4000
    assert outside(pdf, 12) == []
    assert len(pages(pdf)) > 2


def test_landscape_turns_the_page() -> None:
    paper = Paper(HEAD, "Try", landscape=True)
    assert (paper.width, paper.height) == (297, 210)
    assert paper.right - paper.left == paper.inner
    assert HEAD.paper is PaperSize.A4
