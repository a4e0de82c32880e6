"""Papers and labels as they looked when a person last approved of them."""

from __future__ import annotations

import os
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
import pypdfium2
import pytest
from PIL import Image

from inventory.documents.cutting_diagrams import cutting_pdf
from inventory.documents.discrepancy_report import discrepancy_pdf
from labels import load_stock, write_pdf
from tests.documents.pages import HEAD
from tests.documents.test_cutting import ANGLE, TUBE
from tests.documents.test_discrepancy_report import FULL
from tests.documents.test_label_proof import KINDS
from tests.documents.test_papers import PAPERS

if TYPE_CHECKING:
    from collections.abc import Callable

GOLDEN = Path(__file__).parent / "golden"
TOLERANCE = 6.0
"""Of 255, the mean difference of a patch of 8 by 8: renderers smooth edges in their own ways."""
DOTS = 75
LABELS = [KINDS[kind] for kind in ("bin", "bag", "part", "step", "remnant", "hold", "control")]


def sheet(name: str) -> bytes:
    return write_pdf(LABELS, load_stock(name))


PICTURES: dict[str, Callable[[], bytes]] = {
    **{name: partial(paper, HEAD) for name, paper in PAPERS.items()},
    "cutting": lambda: cutting_pdf(HEAD, [ANGLE, TUBE]),
    "discrepancy report": lambda: discrepancy_pdf(HEAD, FULL),
    "labels letter-3x10": lambda: sheet("letter-3x10-66.7x25.4"),
    "labels a4-2x7": lambda: sheet("a4-2x7-99.1x38.1"),
    "labels fold": lambda: sheet("a4-2x3-90x45-fold"),
}


def first_page(pdf: bytes) -> Image.Image:
    document = pypdfium2.PdfDocument(pdf)
    picture: Image.Image = document[0].render(scale=DOTS / 72).to_pil().convert("L")
    return picture


def worst_patch(one: Image.Image, other: Image.Image) -> float:
    """Return the largest mean difference of any patch of 8 by 8 pixels."""
    difference = np.abs(np.asarray(one, dtype=float) - np.asarray(other, dtype=float))
    tall, wide = (side // 8 * 8 for side in difference.shape)
    patches = difference[:tall, :wide].reshape(tall // 8, 8, wide // 8, 8)
    return float(patches.mean(axis=(1, 3)).max())


@pytest.mark.parametrize("name", PICTURES)
def test_it_looks_as_it_was_approved(name: str) -> None:
    picture = first_page(PICTURES[name]())
    path = GOLDEN / f"{name.replace(' ', '-')}.png"
    if os.environ.get("KITWRIGHT_GOLDEN") == "write":  # look at each before it is kept
        GOLDEN.mkdir(exist_ok=True)
        picture.quantize(16).save(path, optimize=True)
    with Image.open(path) as approved:
        golden = approved.convert("L")
    assert picture.size == golden.size
    assert worst_patch(picture, golden) < TOLERANCE + 8  # sixteen greys are kept of 256


def test_a_missing_word_is_seen() -> None:
    picture = first_page(PICTURES["pick list"]())
    spoiled = picture.copy()
    spoiled.paste(255, (95, 38, 140, 60))
    assert worst_patch(picture, spoiled) > 40
