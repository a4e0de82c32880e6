"""Each stock, kind and resolution: rastered as by a printer, read by two decoders."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pytest

from inventory.core.items import Hand
from inventory.documents.bin_labels import BinLabel, _label
from inventory.documents.control_labels import _control
from inventory.documents.part_labels import PartLabel, RemnantLabel, _part, _remnant
from inventory.documents.step_labels import CrateLabel, StepLabel, _crate, _step
from inventory.documents.tags import Tag, _tag
from labels import LabelError, Printer, Square, fit, load_stock, stock_names, write_pdf
from labels.symbol import QUIET
from tests.labels.raster import cropped, printed, raster, read_dmtx, read_zbar, read_zxing

if TYPE_CHECKING:
    from PIL import Image

    from labels import Label
    from labels.geometry import Rect
    from labels.placing import LaidOut

KINDS = {
    "bin": _label(
        BinLabel(own_id="T2000017", name="B-07", part="AN3-5A", description="Bolt"), Square.QR
    ),
    "drawer": _label(BinLabel(own_id="T200025", name="D-12"), Square.DATA_MATRIX),
    "bag": _part(PartLabel(part="MS20470AD4-6", description="Rivet", note="counted 48")),
    "part": _part(
        PartLabel(part="T2-FL-0412", own_id="T200033", hand=Hand.LEFT, steps="step 10-02")
    ),
    "step": _step(StepLabel(own_id="T200041", step="10-02", title="Rivet the ribs")),
    "crate": _crate(CrateLabel(own_id="T20005W", crate="1 OF 3")),
    "remnant": _remnant(RemnantLabel(own_id="T20006U", stock="T2-ST-33", length="321 mm")),
    "hold": _tag(Tag(part="T2-FL-0413", own_id="T20007S", hand=Hand.RIGHT, why="bent")),
    "control": _control("UNDO"),
}
TINY = "letter-4x20-44.5x12.7"
REFUSED = {TINY: {"part", "crate", "hold"}, "a4-5x13-38.1x21.2": {"crate"}}
"""Kinds whose words can't be read on so small a label; the refusal names others."""


def fitting(name: str, printer: Printer) -> dict[str, Label]:
    """Return the kinds that this stock can carry, and check what is refused."""
    stock = load_stock(name)
    found = {}
    for kind, label in KINDS.items():
        try:
            fit(label, stock, printer)
        except LabelError as refusal:
            if kind not in REFUSED.get(name, set()) or "It fits on" not in refusal.remedy:
                raise
        else:
            found[kind] = label
    return found


def expected(laid_out: LaidOut) -> set[tuple[str, str]]:
    """Return what a decoder has to read on a label."""
    content = laid_out.label.content
    linear = {("Code 128", content)} if laid_out.frame.linear else set()
    return {(str(laid_out.label.square), content)} | linear


def pictures(name: str, dots_per_inch: int) -> list[tuple[LaidOut, Image.Image]]:
    """Return each kind as it is laid out, and its picture as the printer leaves it."""
    stock, printer = load_stock(name), Printer(dots_per_inch)
    labels = list(fitting(name, printer).values())
    pdf = write_pdf(labels, stock, printer=printer)
    rects = list(stock.rects())
    pages: dict[int, Image.Image] = {}
    found = []
    for number, label in enumerate(labels):
        page, place = divmod(number, stock.per_page)
        if page not in pages:
            pages[page] = printed(raster(pdf, dots_per_inch, page))
        face = stock.printed_faces()[-1].area
        laid_out = fit(label, stock, printer)
        area = face if not stock.lengths else face.__class__(0, 0, *laid_out.spot.size)
        corner = rects[place]
        found.append(
            (laid_out, cropped(pages[page], area.moved(corner.x, corner.y), dots_per_inch))
        )
    return found


@pytest.mark.parametrize("dots_per_inch", [203, 300, 600])
@pytest.mark.parametrize("name", stock_names())
def test_every_kind_is_read_by_two_decoders(name: str, dots_per_inch: int) -> None:
    for laid_out, picture in pictures(name, dots_per_inch):
        wanted = expected(laid_out)
        seen = picture.reduce(2) if dots_per_inch > 300 else picture  # no camera sees finer
        assert read_zxing(seen) == wanted
        if laid_out.label.square is Square.DATA_MATRIX:
            assert read_dmtx(square_alone(laid_out, picture)) == wanted - read_zbar(seen)
        else:
            assert read_zbar(seen) == wanted


def square_alone(laid_out: LaidOut, picture: Image.Image) -> Image.Image:
    """Return the square symbol with its quiet zone, at 6 pixels a cell."""
    frame, dot = laid_out.frame, laid_out.spot.printer.dot
    clear = 2 * frame.cell * dot
    part = cropped(picture, frame.square.inset(-clear, -clear), 25.4 / dot)
    scale = 6 / frame.cell
    return part.resize((round(part.width * scale), round(part.height * scale)))


@pytest.mark.parametrize("name", stock_names())
def test_quiet_zones_are_white_on_the_raster(name: str) -> None:
    for laid_out, picture in pictures(name, 300):
        dark = np.asarray(picture) == 0
        frame, dot = laid_out.frame, laid_out.spot.printer.dot
        assert laid_out.label.square is not None
        clear = QUIET[laid_out.label.square] * frame.cell * dot
        assert not ring(dark, frame.square, clear, clear, dot).any()
        if frame.linear:
            assert not ring(dark, frame.linear, 10 * frame.bar * dot, 0, dot).any()


def ring(
    dark: np.ndarray[tuple[int, int], np.dtype[np.bool_]],
    mark: Rect,
    across: float,
    down: float,
    dot: float,
) -> np.ndarray[tuple[int, int], np.dtype[np.bool_]]:
    """Return what surrounds a mark, the mark itself and a dot of rounding taken out."""
    outer = mark.inset(-across, -down)
    left, top, right, bottom = (
        round(side / dot) for side in (outer.x, outer.y, outer.right, outer.bottom)
    )
    assert min(left, top) >= 0
    assert (right, bottom) <= (dark.shape[1], dark.shape[0])
    around = dark[top:bottom, left:right].copy()
    slack = 1
    inner = (
        round(mark.x / dot) - left - slack,
        round(mark.y / dot) - top - slack,
        round(mark.right / dot) - left + slack,
        round(mark.bottom / dot) - top + slack,
    )
    around[max(0, inner[1]) : inner[3], max(0, inner[0]) : inner[2]] = False
    return around
