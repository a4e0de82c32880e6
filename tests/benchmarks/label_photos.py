"""Which labels a phone reads: `python -m tests.benchmarks.label_photos` prints the table.

The photographs are made here: a printed label, tilted, turned, blurred, noisy, pale, saved as
JPEG. They rank labels and conditions; they promise no rate on real paper.
"""

from __future__ import annotations

import io
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from PIL import Image, ImageFilter

from labels import load_stock, write_pdf
from tests.documents.test_label_proof import KINDS
from tests.labels.raster import cropped, printed, raster, read_zxing

if TYPE_CHECKING:
    from collections.abc import Iterable

    from labels import Label

FRAME = (1280, 720)
"""One frame of a phone's live picture."""
SHOTS = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class Condition:
    """How a photograph is taken."""

    name: str
    wide: int = 500
    """Pixels across the label."""
    tilt: float = 10.0
    """Degrees out of the picture's plane, at most, about both axes."""
    turn: float = 10.0
    """Degrees in the picture's plane, at most."""
    blur: float = 1.0
    """Standard deviation in pixels."""
    ink: int = 30
    paper: int = 220


CONDITIONS = (
    Condition(name="500 px across the label"),
    Condition(name="350 px", wide=350),
    Condition(name="250 px", wide=250),
    Condition(name="180 px", wide=180),
    Condition(name="blur 2 px", blur=2.0),
    Condition(name="blur 3 px", blur=3.0),
    Condition(name="tilt 60°", tilt=60),
    Condition(name="any way up", turn=180),
    Condition(name="grey 100 on 140", ink=100, paper=140),
    Condition(name="all at once", wide=450, tilt=30, turn=180, blur=1.4, ink=80, paper=170),
)

STOCKS = {
    "bin": "letter-3x10-66.7x25.4",
    "drawer": "a4-5x13-38.1x21.2",
    "bag": "a4-2x3-90x45-fold",
    "part": "letter-3x10-66.7x25.4",
    "step": "letter-3x10-66.7x25.4",
    "crate": "letter-2x5-101.6x50.8",
    "remnant": "a4-1x12-70x20-wrap",
    "hold": "letter-2x3-90x42-fold",
    "control": "letter-2x5-101.6x50.8",
}
"""The stock on which each kind is usually printed."""


def picture(label: Label, stock_name: str, dots_per_inch: int = 300) -> Image.Image:
    """Return a label as printed, alone."""
    stock = load_stock(stock_name)
    page = printed(raster(write_pdf([label], stock), dots_per_inch))
    rect = next(stock.rects())
    return cropped(page, stock.printed_faces()[-1].area.moved(rect.x, rect.y), dots_per_inch)


def photograph(label: Image.Image, taken: Condition, seed: int) -> Image.Image:
    """Return a photograph of the label; the same seed gives the same photograph."""
    chance = np.random.default_rng(seed)
    scale = taken.wide / label.width
    corners = np.array([(-0.5, -0.5), (0.5, -0.5), (0.5, 0.5), (-0.5, 0.5)])
    corners = corners * (label.width * scale, label.height * scale)
    turn, lean, nod = np.radians(
        [chance.uniform(-most, most) for most in (taken.turn, taken.tilt, taken.tilt)]
    )
    x = corners[:, 0] * np.cos(turn) - corners[:, 1] * np.sin(turn)
    y = corners[:, 0] * np.sin(turn) + corners[:, 1] * np.cos(turn)
    depth = 1 + (x * np.sin(lean) + y * np.sin(nod)) / (2.5 * taken.wide)
    seen = np.column_stack((x * np.cos(lean) / depth, y * np.cos(nod) / depth))
    seen += np.array(FRAME) / 2 + chance.uniform(-8, 8, 2)
    share = min(1.0, 2 * scale)
    size = round(label.width * share), round(label.height * share)
    small = label.resize(size, Image.Resampling.LANCZOS)
    return developed(laid(small, seen, taken), taken, chance)


def laid(label: Image.Image, seen: np.ndarray, taken: Condition) -> Image.Image:
    """Return the label with its corners where they are seen, on a bench."""
    ink, paper = taken.ink, taken.paper
    pale = label.point([round(ink + (paper - ink) * grey / 255) for grey in range(256)])
    source = [(0, 0), (label.width, 0), (label.width, label.height), (0, label.height)]
    rows, known = [], []
    for (u, v), (x, y) in zip(source, seen, strict=True):
        rows += [[x, y, 1, 0, 0, 0, -u * x, -u * y], [0, 0, 0, x, y, 1, -v * x, -v * y]]
        known += [u, v]
    inverse = np.linalg.solve(np.array(rows, dtype=float), np.array(known, dtype=float))
    method = Image.Transform.PERSPECTIVE
    smooth = Image.Resampling.BICUBIC
    bench = (ink + paper) // 2
    return pale.transform(FRAME, method, tuple(inverse), resample=smooth, fillcolor=bench)


def developed(scene: Image.Image, taken: Condition, chance: np.random.Generator) -> Image.Image:
    """Return the scene as the camera leaves it: out of focus, noisy, compressed."""
    soft = np.asarray(scene.filter(ImageFilter.GaussianBlur(taken.blur)), dtype=float)
    noisy = np.clip(soft + chance.normal(0, 5, soft.shape), 0, 255).astype(np.uint8)
    written = io.BytesIO()
    Image.fromarray(noisy).save(written, "JPEG", quality=85)
    return Image.open(written)


def read(label: Image.Image, content: str, taken: Condition, shots: int = SHOTS) -> tuple[int, int]:
    """Return how many photographs gave the right text, and how many any other text."""
    texts = [
        {text for _, text in read_zxing(photograph(label, taken, seed))} for seed in range(shots)
    ]
    return sum(content in found for found in texts), sum(bool(found - {content}) for found in texts)


def rows(kinds: Iterable[str]) -> list[list[str]]:
    """Return a row of the table for each kind: how many of the photographs were read."""
    table = []
    for kind in kinds:
        label = KINDS[kind]
        shown = picture(label, STOCKS[kind])
        counts = [read(shown, label.content, taken) for taken in CONDITIONS]
        wrong = sum(mistaken for _, mistaken in counts)
        table.append([kind, STOCKS[kind], *(str(right) for right, _ in counts), str(wrong)])
    return table


def main() -> None:
    """Print the table as Markdown."""
    heads = ["kind", "stock", *(taken.name for taken in CONDITIONS), "wrong text"]
    for row in [heads, ["---"] * len(heads), *rows(STOCKS)]:
        print(f"| {' | '.join(row)} |")


if __name__ == "__main__":
    main()
