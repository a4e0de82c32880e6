from __future__ import annotations

from dataclasses import replace
from xml.etree import ElementTree as ET

import pytest

from inventory.core.errors import InventoryError
from inventory.documents.cut_bars import CutBar, CutPiece, left_over, left_words, placed_pieces
from inventory.documents.cutting_diagrams import cutting_pdf, cutting_table
from inventory.documents.cutting_svg import cutting_svg
from inventory.documents.cutting_text import cutting_text
from tests.documents.pages import HEAD, outside, pages, words

MM = 1_000_000
ANGLE = CutBar(
    name="bar 1",
    stock="Angle 3/4 x 3/4 x 0.063",
    length=1_219_200_000,
    kerf=3_175_000,
    pieces=tuple(CutPiece(name="T2-ST-0033", length=75 * MM, step="10-02") for _ in range(15)),
    remnant="T20006U",
)
TUBE = CutBar(
    name="remnant T20001",
    stock="Tube <1 in> & wall",
    length=900 * MM,
    kerf=2 * MM,
    front_trim=5 * MM,
    back_trim=10 * MM,
    pieces=(CutPiece(name="T2-TU-1", length=310 * MM), CutPiece(name="T2-TU-2", length=4 * MM)),
    times=2,
)
WHOLE = replace(TUBE, front_trim=0, back_trim=0, pieces=(CutPiece(name="X", length=900 * MM),))
EMPTY = replace(TUBE, pieces=(), times=1)


def test_fifteen_pieces_of_75_mm_come_from_four_feet() -> None:
    # common practice, no source: 15 x 75 + 15 x 3.175 = 1172.625 of 1219.2 mm
    placed = placed_pieces(ANGLE)
    assert (placed[1].start, placed[-1].end) == (78_175_000, 1_169_450_000)
    assert left_over(ANGLE) == 46_575_000
    assert left_words(ANGLE) == "left 46.575 mm: remnant T20006U"


def test_a_sixteenth_does_not_fit_and_is_refused() -> None:
    with pytest.raises(InventoryError, match=r"end at 1247\.625 mm, the bar at 1219\.2 mm"):
        placed_pieces(replace(ANGLE, pieces=(*ANGLE.pieces, ANGLE.pieces[0])))


def test_a_piece_may_end_where_the_bar_does() -> None:
    assert (left_over(WHOLE), left_words(WHOLE)) == (0, "nothing left")


def test_a_bar_without_pieces_is_left_whole_but_for_its_trims() -> None:
    assert left_over(EMPTY) == 885 * MM


def test_terminal_diagram_fits_80_columns_and_tells_every_mark() -> None:
    assert cutting_text([TUBE, WHOLE]).splitlines() == [
        "2 × remnant T20001: Tube <1 in> & wall, 900 mm",
        "[" + "-" * 13 + "1" + "-" * 13 + "|" + "." * 50 + "]",  # 4 mm are less than a column
        "   length  tape from      to  piece",
        "1  310 mm       5 mm  315 mm  T2-TU-1",
        "2    4 mm     317 mm  321 mm  T2-TU-2",
        "kerf 2 mm, left 567 mm: scrap",
        "",
        "2 × remnant T20001: Tube <1 in> & wall, 900 mm",
        "[" + "-" * 38 + "1" + "-" * 38 + "|]",
        "   length  tape from      to  piece",
        "1  900 mm       0 mm  900 mm  X",
        "kerf 2 mm, nothing left",
    ]
    assert max(map(len, cutting_text([ANGLE, EMPTY]).splitlines())) <= 80
    assert cutting_text([]) == ""


def test_front_trim_shows_where_it_is_wide_enough() -> None:
    assert cutting_text([replace(TUBE, front_trim=50 * MM)]).splitlines()[1].startswith("[####-")


def test_paper_tells_every_mark_and_the_claim() -> None:
    text = words(cutting_pdf(HEAD, [ANGLE, TUBE, WHOLE, EMPTY], "Proven."))
    assert "21 pieces from 6 bars. Proven." in text
    assert "1094.45 mm 1169.45 mm T2-ST-0033 10-02" in text
    assert "Kerf 2 mm, left 567 mm: scrap." in text
    assert outside(cutting_pdf(HEAD, [ANGLE] * 5), 12) == []
    assert len(pages(cutting_pdf(HEAD, []))) == 1


def test_table_has_a_row_for_each_piece() -> None:
    rows = cutting_table([TUBE, ANGLE]).rows
    assert len(rows) == 17
    assert rows[0] == (
        *("remnant T20001", 2, "Tube <1 in> & wall", 1, "T2-TU-1", "", "310 mm", "5 mm"),
        *("315 mm", "left 567 mm: scrap"),
    )


def test_drawing_is_sound_xml_to_scale_with_every_mark() -> None:
    drawing = ET.fromstring(cutting_svg([ANGLE, TUBE, WHOLE]))  # noqa: S314  # our own text
    space = "{http://www.w3.org/2000/svg}"
    pieces = [one for one in drawing.iter(f"{space}rect") if one.get("class") == "p"]
    shown = [one.text for one in drawing.iter(f"{space}text")]
    assert len(pieces) == 18
    assert float(pieces[0].get("width", "")) == pytest.approx(1000 * 75 / 1219.2, abs=0.001)
    assert {"75 mm", "1169.45 mm", "321 mm", "1 T2-TU-1", "2"} <= set(shown)
    title = drawing.find(f"{space}title")
    assert title is not None
    assert title.text is not None
    assert "Tube <1 in> & wall" in title.text


def test_a_first_short_piece_keeps_its_mark_inside_the_drawing() -> None:
    short = replace(TUBE, front_trim=0, pieces=(CutPiece(name="X", length=4 * MM),))
    assert 'class="a"' in cutting_svg([short])
    assert cutting_svg([])
