from __future__ import annotations

from typing import TYPE_CHECKING

import pypdfium2
import pytest
from PIL import Image

from inventory.cli.exits import Exit

if TYPE_CHECKING:
    from pathlib import Path

    from tests.cli.conftest import Typist


def text_of(path: Path) -> str:
    with pypdfium2.PdfDocument(path) as paper:
        return "\n".join(page.get_textpage().get_text_range() for page in paper)


def recorded(listed: Typist, *words: str) -> str:
    told = listed("delivery", "record", *words)
    assert told.code == Exit.DONE, told.err
    return told.out


def test_delivery_is_shown_with_all_that_was_said(listed: Typist) -> None:
    out = recorded(
        listed, "--supplier", "Curlew Slip Kit Works", "--carriage", "us-truck", "--delivered",
        "2026-07-02", "--country", "US", "--region", "WA", "--advised", "3", "--counted", "2",
        "--window", "10 business", "--pro", "77-1", "--list", "1", "--late",
    )  # fmt: skip
    assert out.startswith("delivery 1: delivered on 2026-07-02, late at WA, US\n")
    for words in (
        "truck within the United States", "2 counted, 3 advised: 1 MISSING", "10 business days",
        "PRO number      77-1", "packing lists   1",
    ):  # fmt: skip
        assert words in out


def test_what_is_not_said_again_stays(listed: Typist) -> None:
    recorded(listed, "--carrier", "Tern Freight", "--window", "30", "--event",
             "discovery=2026-03-02")  # fmt: skip
    out = recorded(listed, "1", "--order", "4711", "--window", "none", "--event", "discovery=none")
    assert "Tern Freight" in out
    assert "supplier's own" not in out
    assert "discovery" not in out
    assert "not delivered yet" in out


@pytest.mark.parametrize(
    ("words", "why"),
    [
        (("--delivered", "14.3.2026"), "is no date"),
        (("--delivered", "2099-01-01"), "still to come"),
        (("--carriage", "plane"), "is no carriage"),
        (("--window", "soon"), "is no window"),
        (("--window", "0"), "is no window"),
        (("--window", "5 moons"), "is no window"),
        (("--event", "discovery"), "is no event"),
        (("--event", "birthday=2026-01-01"), "no period runs from"),
        (("--counted", "-1"), "-1 packages can't be"),
        (("--list", "7"), "no packing list 7"),
    ],
)
def test_wrong_words_are_refused_and_nothing_is_stored(
    listed: Typist, words: tuple[str, ...], why: str
) -> None:
    told = listed("delivery", "record", *words)
    assert (told.code, why in told.err) == (Exit.REFUSED, True)
    assert listed("delivery", "show", "--json").content == []


def test_exception_reminds_of_the_drivers_paper(listed: Typist) -> None:
    recorded(listed, "--delivered", "today")
    told = listed("delivery", "exception", "end panel holed", "--crate", "2", "--harmed")
    assert told.out == "recorded of crate 2 OF 3: end panel holed\n"
    assert "BOTH copies" in told.err
    noted = listed("delivery", "exception", "pallet wet", "--on-receipt")
    assert (noted.out, noted.err) == ("recorded of the delivery: pallet wet\n", "")
    shown = listed("delivery", "show").out
    assert "crate 2 OF 3 harmed: end panel holed (NOT on the receipt)" in shown
    assert "other: pallet wet (on the receipt)" in shown
    both = listed("delivery", "exception", "x", "--crate", "2", "--harmed", "--missing")
    assert both.code == Exit.REFUSED


def test_photos_are_kept_by_hash_beside_the_store(listed: Typist) -> None:
    recorded(listed, "--delivered", "today")
    file = listed.folder / "lid.png"
    Image.new("RGB", (50, 20), "blue").save(file)
    told = listed("delivery", "photo", str(file), "--crate", "2", "--caption", "lid")
    assert told.out.startswith("kept lid.png: 50 x 20, ")
    assert len(list((listed.folder / "kits.kitwright.photos").iterdir())) == 1
    (listed.folder / "no.jpg").write_text("no picture")
    assert listed("delivery", "photo", str(listed.folder / "no.jpg")).code == Exit.REFUSED


def test_photo_of_nothing_in_particular_is_of_the_delivery(listed: Typist) -> None:
    file = listed.folder / "truck.png"
    Image.new("RGB", (50, 20), "red").save(file)
    none = listed("delivery", "photo", str(file))
    assert (none.code, "no delivery is recorded yet" in none.err) == (Exit.REFUSED, True)
    recorded(listed, "--delivered", "today")
    listed("delivery", "photo", str(file), "--caption", "all three crates on the truck " * 3)
    lines = listed("delivery", "show").out.splitlines()
    assert lines[-2].startswith("  photograph      truck.png: all three crates on the truck")
    assert lines[-1].startswith(" " * 18)
    assert max(map(len, lines)) <= 80
    recorded(listed, "--delivered", "today")
    two = listed("delivery", "photo", str(file))
    assert "there are deliveries 1, 2" in two.err


def test_codes_of_the_place_are_written_as_the_standard_has_them(listed: Typist) -> None:
    out = recorded(listed, "--delivered", "2026-07-02", "--country", "us", "--region", "wa")
    assert "at WA, US" in out


def test_checklist_is_a_pdf_and_nothing_else(listed: Typist) -> None:
    told = listed("delivery", "checklist", "-o", str(listed.folder / "list.docx"))
    assert (told.code, "End the file's name in .pdf" in told.err) == (Exit.REFUSED, True)
    assert not (listed.folder / "list.docx").exists()


def test_several_deliveries_are_a_table(listed: Typist) -> None:
    recorded(listed, "--delivered", "2026-03-02", "--list", "1")
    recorded(listed, "--carriage", "air")
    out = listed("delivery", "show").out
    assert "2026-03-02" in out
    assert "not yet" in out
    assert listed("delivery", "lists", "2", "1").out.endswith("packing lists   1\n")


def test_checklist_names_crates_and_the_first_day(listed: Typist) -> None:
    paper = listed.folder / "checklist.pdf"
    assert listed("delivery", "checklist", "-o", str(paper)).code == Exit.DONE
    assert "2 OF 3" in text_of(paper)
    # Worked example of the five business days: from Thu 2 July 2026 to Fri 10 July.
    recorded(listed, "--carriage", "us-truck", "--delivered", "2026-07-02", "--country", "US")
    assert listed("delivery", "checklist", "-o", str(paper)).code == Exit.DONE
    written = " ".join(text_of(paper).split())
    assert "By 2026-07-10" in written
    assert "A reminder, not legal advice" in written
    assert "storage may cost from then on" in written
