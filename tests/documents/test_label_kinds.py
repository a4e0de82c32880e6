from __future__ import annotations

from typing import TYPE_CHECKING

import pypdfium2
import pytest

from inventory.core.errors import InventoryError
from inventory.core.items import Hand
from inventory.core.scanning.codes import own_id
from inventory.core.scanning.scans import CONTROLS, TEST_CARD, TEST_CARD_LINES, ScanKind, read_scan
from inventory.documents.bin_labels import BinLabel, bin_labels
from inventory.documents.control_labels import control_labels, scanner_card_pdf
from inventory.documents.label_sheet import LabelSheet, label_stocks
from inventory.documents.page_head import PaperSize
from inventory.documents.part_labels import PartLabel, RemnantLabel, part_labels, remnant_labels
from inventory.documents.step_labels import CrateLabel, StepLabel, crate_labels, step_labels
from inventory.documents.tags import Tag, tags
from tests.documents.pages import HEAD, pages, words
from tests.labels.raster import printed, raster, read_dmtx, read_zxing

if TYPE_CHECKING:
    from inventory.documents.label_sheet import PrintedLabels

ID = own_id("T2", 42)
SHEET = LabelSheet(stock="letter-2x5-101.6x50.8")


def kinds(labels: PrintedLabels) -> set[tuple[ScanKind, str]]:
    """Return what the scan loop makes of every code on the first page."""
    read = read_zxing(printed(raster(labels.pdf, 300)))
    return {(scan.kind, scan.value) for scan in (read_scan(text) for _, text in read)}


def test_bin_label_carries_its_number_and_shows_the_name() -> None:
    labels = bin_labels([BinLabel(own_id=ID, name="B-07", part="AN3-5A", hand=Hand.LEFT)], SHEET)
    assert kinds(labels) == {(ScanKind.PLACE, ID)}
    assert set(pages(labels.pdf)[0].split()) == {"B-07", "LEFT", "AN3-5A", f"L{ID}"}


def test_a_name_read_from_a_shelf_needs_a_larger_label() -> None:
    far = BinLabel(own_id=ID, name="SHELF-12", distance=2000)
    with pytest.raises(InventoryError, match="large enough to read"):
        bin_labels([far], LabelSheet(stock="a4-5x13-38.1x21.2"))
    assert bin_labels([far], LabelSheet(stock="letter-2x5-101.6x50.8")).remarks == ()


def test_crate_is_a_place() -> None:
    labels = crate_labels([CrateLabel(own_id=ID, crate="1 OF 3", packing_list="PL-7")])
    assert kinds(labels) == {(ScanKind.PLACE, ID)}
    assert "1 OF 3 packing list PL-7" in words(labels.pdf)


def test_step_label_starts_the_scan_loop() -> None:
    labels = step_labels([StepLabel(own_id=ID, step="10-02", title="Rivet", section="10")], SHEET)
    assert kinds(labels) == {(ScanKind.STEP, ID)}
    assert "10-02 Rivet section 10" in words(labels.pdf)


def test_part_of_a_hand_has_a_number_of_ours() -> None:
    part = PartLabel(part="T2-FL-0412", own_id=ID, hand=Hand.RIGHT, lot="L7", steps="step 10-02")
    labels = part_labels([part], SHEET)
    assert kinds(labels) == {(ScanKind.TAG, ID)}
    assert words(labels.pdf) == f"RIGHT T2-FL-0412 lot L7 · for step 10-02 9S{ID}"


def test_part_without_a_number_of_ours_says_its_part_number() -> None:
    labels = part_labels([PartLabel(part="ms20470ad4–6")], SHEET)
    assert kinds(labels) == {(ScanKind.PART, "MS20470AD4-6")}


def test_remnant_shows_its_length_and_never_encodes_it() -> None:
    remnant = RemnantLabel(own_id=ID, stock="T2-ST-0033", section="Angle", length="321 mm")
    labels = remnant_labels([remnant], SHEET)
    assert kinds(labels) == {(ScanKind.REMNANT, ID)}
    assert words(labels.pdf).startswith("321 mm T2-ST-0033 Angle")


def test_hold_tag_says_what_the_piece_is() -> None:
    labels = tags([Tag(part="T2-FL-0412", own_id=ID, hand=Hand.LEFT, why="bent")])
    assert kinds(labels) == {(ScanKind.TAG, ID)}
    assert words(labels.pdf).count("HOLD") == 2  # both sides of the folded tag
    assert words(labels.pdf).count("bent") == 2


def test_scrap_tag_carries_no_code() -> None:
    labels = tags([Tag(part="T2-FL-0412", own_id=ID, lot="L7", why="drilled wrong", scrapped=True)])
    assert kinds(labels) == set()
    assert words(labels.pdf).count("SCRAP") == 2
    assert "lot L7" in words(labels.pdf)


def test_control_sheet_holds_every_control() -> None:
    labels = control_labels(LabelSheet(stock="a4-3x7-63.5x38.1"))
    assert kinds(labels) == {(ScanKind.CONTROL, word) for word in CONTROLS}


def test_control_sheet_takes_a_stock_of_its_own() -> None:
    assert len(pages(control_labels().pdf)) == 1
    assert len(pages(control_labels(LabelSheet(paper=PaperSize.LETTER)).pdf)) == 2


@pytest.mark.parametrize(
    ("paper", "widths"), [(PaperSize.A4, {210.0}), (PaperSize.LETTER, {215.9})]
)
def test_without_a_stock_every_kind_takes_one_of_the_paper_at_hand(
    paper: PaperSize, widths: set[float]
) -> None:
    sheet = LabelSheet(paper=paper, copies=2)
    made = [
        bin_labels([BinLabel(own_id=ID, name="B-07")], sheet),
        crate_labels([CrateLabel(own_id=ID, crate="1 OF 3")], sheet),
        tags([Tag(part="T2-FL-0412", own_id=ID)], sheet),
        control_labels(sheet),
    ]
    found = {
        round(page.get_width() / 72 * 25.4, 1)
        for one in made
        for page in pypdfium2.PdfDocument(one.pdf)
    }
    assert found == widths


def test_labels_that_cannot_be_printed_are_counted_and_sent_to_a_stock_that_fits_all() -> None:
    long = BinLabel(own_id=ID, name="SHELF-12-LEFT-OF-DOOR")
    longer = BinLabel(own_id=ID, name="SHELF-12-LEFT-OF-THE-BOAT-DOOR")
    small = LabelSheet(stock="a4-5x13-38.1x21.2")
    with pytest.raises(InventoryError, match=r"nor can 1 other$") as refusal:
        bin_labels([BinLabel(own_id=ID, name="B-07"), long, longer], small)
    assert refusal.value.remedy.startswith("All fit on ")
    for name in refusal.value.remedy.removeprefix("All fit on ").rstrip(".").split(", "):
        bin_labels([long, longer], LabelSheet(stock=name))


def test_card_holds_every_character_for_camera_and_line_scanner() -> None:
    read = read_zxing(printed(raster(scanner_card_pdf(HEAD), 300)))
    assert {text for kind, text in read if kind == "QR"} == {TEST_CARD}
    assert {text for kind, text in read if kind == "Code 128"} == set(TEST_CARD_LINES)


def test_tiny_drawers_get_data_matrix() -> None:
    tiny = LabelSheet(stock="letter-4x20-44.5x12.7")
    labels = bin_labels([BinLabel(own_id=ID, name="D-7")], tiny, tiny=True)
    page = printed(raster(labels.pdf, 300))
    assert read_zxing(page) == {("Data Matrix", f"L{ID}")}
    assert read_dmtx(page.crop((80, 140, 340, 310)).resize((520, 340))) == read_zxing(page)


def test_without_a_sheet_the_commonest_is_taken() -> None:
    labels = bin_labels([BinLabel(own_id=ID, name="B-07")])
    assert (labels.next_free, labels.remarks) == (2, ())


def test_what_is_left_out_is_said() -> None:
    small = LabelSheet(stock="a4-5x13-38.1x21.2", start=65)
    long = BinLabel(own_id=ID, name="B-07", description="Nose rib with lightening holes")
    labels = bin_labels([long], small)
    assert labels.next_free == 1
    assert labels.remarks == (
        "“Nose rib with lightening holes” was shortened (1 label)",
        "no room for Code 128 (1 label)",
    )


def test_label_that_cannot_be_printed_well_is_a_refusal_with_the_stocks_that_fit() -> None:
    small = LabelSheet(stock="a4-5x13-38.1x21.2")
    with pytest.raises(InventoryError, match="SHELF-12-LEFT-OF-DOOR") as refusal:
        bin_labels([BinLabel(own_id=ID, name="SHELF-12-LEFT-OF-DOOR")], small)
    assert refusal.value.remedy.startswith("It fits on ")


@pytest.mark.parametrize(
    "sheet",
    [
        LabelSheet(stock="a5-1x1"),
        LabelSheet(start=31),
        LabelSheet(copies=0),
        LabelSheet(dots_per_inch=1),
        LabelSheet(offset_x=9),
    ],
)
def test_sheet_that_cannot_be_is_a_refusal(sheet: LabelSheet) -> None:
    with pytest.raises(InventoryError) as refusal:
        bin_labels([BinLabel(own_id=ID, name="B-07")], sheet)
    assert refusal.value.remedy


def test_stocks_are_known_by_name() -> None:
    assert "letter-3x10-66.7x25.4" in label_stocks()
