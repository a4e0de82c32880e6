"""Labels from the command line: each kind is decoded, and scans back to what it stands for."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pypdfium2
import pytest
import zxingcpp

from inventory.cli.exits import Exit
from inventory.cli.labelling import labels as labels_command
from inventory.cli.labelling.label_kinds import MadeLabels

if TYPE_CHECKING:
    from tests.cli.conftest import Typist


def decoded(path: Path) -> set[str]:
    texts: set[str] = set()
    with pypdfium2.PdfDocument(path.read_bytes()) as pages:
        for page in pages:
            picture = page.render(scale=300 / 72).to_pil()
            texts |= {each.text for each in zxingcpp.read_barcodes(picture)}
    return texts


@pytest.fixture
def stocked(typed: Typist) -> Typist:
    typed("kit", "new", "Tarn T2", "--code", "T2")
    typed("bin", "add", "A", "B")
    for part, hand in (("T2-RU-0412", "left"), ("T2-RU-0412", "right"), ("AN3-5A", "none")):
        typed("bin", "put", part, "2", "--hand", hand, "--from", "opening", "--to", "A")
    typed("bin", "put", "T2-ST-75", "1", "--length", "31in", "--from", "opening", "--to", "B")
    return typed


def labels(typist: Typist, kind: str, *more: str) -> set[str]:
    path = typist.folder / f"{kind}.pdf"
    told = typist("labels", kind, *more, "-o", str(path))
    assert told.code == Exit.DONE, told.err
    return decoded(path)


def test_bin_labels_scan_back_to_their_bins(stocked: Typist) -> None:
    codes = labels(stocked, "bins")
    assert len(codes) == 2
    assert labels(stocked, "bins") == codes
    assert all(code.startswith("LT2") for code in codes)


def test_each_hand_has_a_label_of_its_own(stocked: Typist) -> None:
    codes = labels(stocked, "parts", "T2-RU-0412", "AN3-5A")
    assert "1PAN3-5A" in codes
    assert len([code for code in codes if code.startswith("9ST2")]) == 2


def test_bags_always_carry_a_number_of_ours(stocked: Typist) -> None:
    assert all(code.startswith("9ST2") for code in labels(stocked, "bags", "AN3-5A"))


def test_remnants_carry_a_number_and_no_length(stocked: Typist) -> None:
    codes = labels(stocked, "remnants")
    assert [code[:5] for code in codes] == ["20ST2"]


def test_hold_tags_say_what_they_hold(stocked: Typist) -> None:
    stocked("hold", "AN3-5A", "1", "--from", "A", "--why", "bent")
    assert labels(stocked, "tags") == {"1PAN3-5A"}


def test_tags_say_why_since_when_and_who(stocked: Typist) -> None:
    told = stocked("labels", "tags", "-o", str(stocked.folder / "tags.pdf"))
    assert (told.code, "on hold or scrapped" in told.err) == (Exit.REFUSED, True)
    held = ("hold", "AN3-5A", "1", "--from", "A", "--why", "bent")
    stocked("--by", "Inga", "--on", "2026-03-14", *held)
    stocked("scrap", "T2-RU-0412", "1", "--hand", "left", "--from", "A", "--why", "hole too wide")
    path = stocked.folder / "tags.pdf"
    told = stocked("labels", "tags", "-o", str(path))
    assert "2 tags" in told.out
    with pypdfium2.PdfDocument(path.read_bytes()) as document:
        words = document[0].get_textpage().get_text_range()
    for word in ("HOLD", "bent", "2026-03-14 Inga", "SCRAP", "hole too wide"):
        assert words.count(word) == 2, word


def test_a_hold_that_was_undone_is_no_reason(stocked: Typist) -> None:
    stocked("hold", "AN3-5A", "1", "--from", "A", "--why", "bent")
    stocked("hold", "AN3-5A", "1", "--from", "A", "--why", "by mistake")
    stocked("undo")
    path = stocked.folder / "tags.pdf"
    stocked("labels", "tags", "-o", str(path))
    with pypdfium2.PdfDocument(path.read_bytes()) as document:
        words = document[0].get_textpage().get_text_range()
    assert ("bent" in words, "by mistake" in words) == (True, False)


def test_all_bags_means_what_the_lists_say_came_in_bags(rudder_counted: Typist) -> None:
    told = rudder_counted("labels", "bags", "-o", str(rudder_counted.folder / "bags.pdf"))
    assert told.out.startswith("16 bag labels")  # items with a bag in counts.csv


def test_without_a_bag_on_any_list_the_parts_are_asked_for(stocked: Typist) -> None:
    told = stocked("labels", "bags", "-o", str(stocked.folder / "x.pdf"))
    assert (told.code, "no list names a bag" in told.err) == (Exit.REFUSED, True)


def test_bins_are_printed_in_the_order_of_the_shelf(typed: Typist) -> None:
    typed("kit", "new", "Tarn T2", "--code", "T2")
    typed("bin", "add", "C-1..C-12")
    typed("labels", "bins", "-o", str(typed.folder / "bins.pdf"))
    with pypdfium2.PdfDocument((typed.folder / "bins.pdf").read_bytes()) as document:
        words = document[0].get_textpage().get_text_range().split()
    assert [word for word in words if word.startswith("C-")] == [
        f"C-{number}" for number in range(1, 13)
    ]


def test_a_label_file_is_a_pdf_and_never_the_store(stocked: Typist) -> None:
    store = stocked.folder / "kits.kitwright"
    told = stocked("labels", "bins", "-o", str(store))
    assert (told.code, "End it in .pdf" in told.err) == (Exit.REFUSED, True)
    assert stocked("bin", "show").code == Exit.DONE


def test_control_sheet_holds_every_control(stocked: Typist) -> None:
    assert {"ZUNDO", "ZDONE", "ZYES", "ZCLEAR", "ZQ0", "ZQ9"} <= labels(stocked, "controls")


def test_scanner_card_and_calibration_page_are_pages(stocked: Typist) -> None:
    assert "Z0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ-./+:" in labels(stocked, "test-card")
    labels(stocked, "calibration", "--stock", "a4-3x7-63.5x38.1")


def test_nothing_to_label_says_what_to_do(stocked: Typist) -> None:
    for kind in ("steps", "crates"):
        told = stocked("labels", kind, "-o", str(stocked.folder / "x.pdf"))
        assert (told.code, "yet" in told.err) == (Exit.REFUSED, True)


def test_stocks_say_what_a_label_holds(stocked: Typist) -> None:
    lines = [line.split() for line in stocked("labels", "stocks").out.splitlines()]
    assert ["a4-3x7-63.5x38.1", "63.5", "x", "38.1", "21", "22", "42", "17"] in lines


def test_calibrated_printer_is_kept_and_used(
    stocked: Typist, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_CONFIG_HOME", str(stocked.folder / "config"))
    kept = stocked("printer", "bench", "100", "100", "--right-by", "0.8")
    assert "use it with --printer bench" in kept.out, kept.err
    labels(stocked, "bins", "--printer", "bench")
    told = stocked("labels", "bins", "--printer", "attic", "-o", str(stocked.folder / "x.pdf"))
    assert "no printer is named attic" in told.err


def test_skip_wants_numbers(stocked: Typist) -> None:
    told = stocked("labels", "bins", "--skip", "a", "-o", str(stocked.folder / "x.pdf"))
    assert (told.code, "names no labels" in told.err) == (Exit.REFUSED, True)


def test_hardware_of_many_steps_says_how_many(typed: Typist) -> None:
    steps = "".join(f"1{number}-01,Rivet,AN3-5A,2\n" for number in range(5))
    (typed.folder / "plan.csv").write_text(f"Step,Title,Part number,Qty\n{steps}")
    typed("kit", "new", "Tarn", "--code", "T2")
    typed("plan", "read", str(typed.folder / "plan.csv"))
    typed("bin", "add", "D-01")
    typed("bin", "put", "AN3-5A", "12", "--from", "opening", "--to", "D-01")
    paper = typed.folder / "labels.pdf"
    typed("labels", "parts", "-o", str(paper))
    with pypdfium2.PdfDocument(paper) as pages:
        assert "for 5 steps" in pages[0].get_textpage().get_text_bounded()


def test_many_remarks_are_counted(capsys: pytest.CaptureFixture[str]) -> None:
    made = MadeLabels(b"", "6 labels", tuple(f"line {number} was shortened" for number in range(6)))
    labels_command._tell(made, Path("labels.pdf"))
    told = capsys.readouterr().err.splitlines()
    assert told == [
        "line 0 was shortened",
        "line 1 was shortened",
        "line 2 was shortened",
        "and 3 more such remarks; look at the PDF",
    ]
