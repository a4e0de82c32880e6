from __future__ import annotations

import sys

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from labels import LabelError, Square
from labels.symbol import QUIET, Cells, cells
from tests.labels.raster import read_dmtx, read_zbar, read_zxing

CODES = st.text("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ-./+: ", min_size=1, max_size=40).map(
    lambda text: f"A{text}B"  # a decoder may drop blanks at the ends
)


def picture(symbol: Cells, dots: int = 4) -> Image.Image:
    """Return the symbol with its quiet zone."""
    side = symbol.size + 2 * symbol.quiet
    image = Image.new("L", (side, side), 255)
    for y, row in enumerate(symbol.rows):
        for x, cell in enumerate(row):
            image.putpixel((x + symbol.quiet, y + symbol.quiet), 0 if cell == "1" else 255)
    return image.resize((side * dots, side * dots), Image.Resampling.NEAREST)


@given(CODES, st.sampled_from(list(Square)))
@settings(max_examples=40, deadline=None)
def test_an_independent_decoder_reads_any_code(text: str, kind: Square) -> None:
    assert read_zxing(picture(cells(text, kind))) == {(str(kind), text)}


@pytest.mark.parametrize("text", ["LT20042M", "1PMS20470AD4-6", "9912A", "9S", "20ST2000417"])
def test_a_second_decoder_reads_qr(text: str) -> None:
    assert read_zbar(picture(cells(text, Square.QR))) == {("QR", text)}


@pytest.mark.parametrize("text", ["LT20042M", "1PMS20470AD4-6", "9912A", "20ST2000417"])
def test_a_second_decoder_reads_data_matrix(text: str) -> None:
    assert read_dmtx(picture(cells(text, Square.DATA_MATRIX), dots=6)) == {("Data Matrix", text)}


@pytest.mark.parametrize(
    ("length", "side"),
    # ISO/IEC 18004:2015, table 7: capitals and digits at level M in versions 1 to 4
    [(20, 21), (21, 25), (38, 25), (39, 29), (61, 29), (62, 33), (90, 33), (91, 37)],
)
def test_qr_grows_where_the_standard_says(length: int, side: int) -> None:
    assert cells("A" * length, Square.QR).size == side


@pytest.mark.parametrize(("kind", "quiet"), [(Square.QR, 4), (Square.DATA_MATRIX, 1)])
def test_quiet_zone_is_the_standards(kind: Square, quiet: int) -> None:
    assert cells("LT20042M", kind).quiet == QUIET[kind] == quiet


def test_short_texts_make_no_micro_qr_and_no_oblong() -> None:
    assert cells("L1", Square.QR).size == 21
    assert {len(row) for row in cells("L1", Square.DATA_MATRIX).rows} == {10}


@pytest.mark.parametrize("kind", list(Square))
@pytest.mark.parametrize(
    ("text", "words", "remedy"),
    [
        ("", "nothing was given to stand in {}", "Give the text to encode."),
        ("A" * 5000, "5000 characters are too many for {}", "Encode a shorter text."),
    ],
)
def test_text_that_a_symbol_cannot_hold_is_refused(
    kind: Square, text: str, words: str, remedy: str
) -> None:
    with pytest.raises(LabelError) as refused:
        cells(text, kind)
    assert (refused.value.what, refused.value.remedy) == (words.format(kind.value), remedy)


def test_data_matrix_without_its_encoder_names_the_extra(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "zxingcpp", None)
    with pytest.raises(LabelError, match="needs the zxing-cpp library") as refusal:
        cells("LT29999X", Square.DATA_MATRIX)
    assert refusal.value.what == "Data Matrix needs the zxing-cpp library"
    assert refusal.value.remedy == "Install kitwright[web], which brings it, or choose QR."
