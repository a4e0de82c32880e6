"""What a photograph of a label costs the server: `python -m tests.benchmarks.photos`.

The floor is the bare libraries on the same bytes: Pillow decodes the JPEG at the fraction that the
first look needs, and zxing-cpp reads the pixels. A second figure holds the whole against that JPEG
decode alone, which nothing that reads a photograph can avoid.
"""

from __future__ import annotations

import random
import sys
from io import BytesIO
from typing import TYPE_CHECKING

import zxingcpp
from PIL import Image

from inventory.web.decoding import FIRST_SIDE, texts_in
from tests.benchmarks.measure import ROUNDS, here, paired, ratio
from tests.benchmarks.measure import main as run
from tests.browser.scenes import label

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from tests.benchmarks.measure import Pair, Result

PHOTO = (4000, 3000)
"""Pixels of a phone's 12 megapixels."""
WRITTEN = "T2000017"
TO_TEXT, TO_NOTHING = (1.5, 3.0), (6.0, 10.0)
OVER_DECODE = (2.0, 10.0)


def measured(quick: bool) -> Iterator[Result]:  # noqa: FBT001
    """Measure a label found at the first look, and a photograph in which there is none."""
    rounds = 3 if quick else ROUNDS
    found, nothing = photograph(labelled=True), photograph(labelled=False)
    if texts_in(found) != [f"L{WRITTEN}"] or texts_in(nothing):
        raise RuntimeError("the photographs aren't read as they were made")
    yield ratio(
        "photo of 12 MP to text, over bare libraries",
        held(lambda: bare(found), lambda: texts_in(found), rounds),
        *TO_TEXT,
    )
    yield ratio(
        "photo of 12 MP to text, over the JPEG decode alone",
        held(lambda: shrunk(found), lambda: texts_in(found), rounds),
        *OVER_DECODE,
    )
    yield ratio(
        "photo of 12 MP without a code, two looks over one",
        held(lambda: bare(nothing), lambda: texts_in(nothing), rounds),
        *TO_NOTHING,
    )


def held(floor: Callable[[], object], ours: Callable[[], object], rounds: int) -> Pair:
    """Hold ours against the floor, by processor time."""
    return paired(here(floor), here(ours), rounds)


def photograph(*, labelled: bool) -> bytes:
    """Return a bench with grain on it as a phone sends it, with a label of 20 cm across or none."""
    grain = random.Random(7)
    spots = Image.new("L", (PHOTO[0] // 8, PHOTO[1] // 8))
    spots.putdata([grain.randrange(120, 200) for _ in range(spots.width * spots.height)])
    bench = spots.resize(PHOTO, Image.Resampling.BILINEAR)
    if labelled:
        paper = label(WRITTEN, "S-03")
        paper = paper.resize((1600, 1600 * paper.height // paper.width))
        bench.paste(paper.rotate(4, expand=True, fillcolor=255), (900, 900))
    file = BytesIO()
    bench.convert("RGB").save(file, "JPEG", quality=88)
    return file.getvalue()


def shrunk(raw: bytes) -> Image.Image:
    """Return the pixels of the first look, by the library alone."""
    with Image.open(BytesIO(raw)) as opened:
        opened.draft("L", (FIRST_SIDE, FIRST_SIDE))
        grey = opened.convert("L")
    grey.thumbnail((FIRST_SIDE, FIRST_SIDE))
    return grey


def bare(raw: bytes) -> object:
    """Read a photograph by the libraries alone."""
    kinds = zxingcpp.BarcodeFormat
    formats = zxingcpp.BarcodeFormats([kinds.Code128, kinds.QRCode, kinds.DataMatrix])
    return zxingcpp.read_barcodes(shrunk(raw), formats=formats, try_invert=False)


if __name__ == "__main__":
    sys.exit(run(__doc__, measured))
