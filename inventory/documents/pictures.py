"""Photographs on paper, as thumbnails with a line of text."""

from __future__ import annotations

import warnings
from io import BytesIO
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError
from inventory.core.frozen import frozen
from inventory.documents.wrapping import SMALL, one_line
from labels.geometry import points

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from reportlab.pdfgen.canvas import Canvas

    from inventory.documents.paper import Paper

_ACROSS = 3
_TALL = 42.0
_GAP = 4.0
_PIXELS = 700
"""On the longer side: 300 to the inch at the printed size."""


@frozen
class Photo:
    """A JPEG or PNG, and what it shows."""

    image: bytes
    caption: str = ""


def place_photos(paper: Paper, photos: Sequence[Photo]) -> None:
    """Draw the photographs three side by side.

    Raises `InventoryError` for what isn't a picture.
    """
    width = (paper.inner - _GAP * (_ACROSS - 1)) / _ACROSS
    tall = _TALL + SMALL.line + _GAP
    for place, photo in enumerate(photos):
        column = place % _ACROSS
        if column == 0:
            if place:
                paper.gap(tall)
            paper.need(tall)
        x = paper.left + column * (width + _GAP)
        paper.draw(_drawing(photo, x, paper.y, width))
        caption = one_line(photo.caption, SMALL, width)
        paper.text(x, paper.y + _TALL + SMALL.line, caption, SMALL)
    paper.gap(tall)


def _drawing(photo: Photo, x: float, y: float, width: float) -> Callable[[Canvas], None]:
    """Return the call that draws the picture into its field, sides kept in proportion."""
    from PIL import Image, UnidentifiedImageError  # noqa: PLC0415  # only where there are photos
    from reportlab.lib.utils import ImageReader  # noqa: PLC0415

    bombs = (Image.DecompressionBombError, Image.DecompressionBombWarning)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            with Image.open(BytesIO(photo.image), formats=("JPEG", "PNG")) as opened:
                opened.draft("RGB", (_PIXELS, _PIXELS))
                picture = opened.convert("RGB")
    except (UnidentifiedImageError, OSError, *bombs) as fault:
        raise _not_a_picture(photo) from fault
    picture.thumbnail((_PIXELS, _PIXELS))
    scale = min(width / picture.width, _TALL / picture.height)
    size = points(picture.width * scale), points(picture.height * scale)
    reader = ImageReader(picture)

    def draw(canvas: Canvas) -> None:
        canvas.drawImage(reader, points(x), -points(y) - size[1], *size)

    return draw


def _not_a_picture(photo: Photo) -> InventoryError:
    """Return the refusal of a photo."""
    return InventoryError(
        "a photograph can't be opened as a JPEG or PNG of a sensible size",
        where=photo.caption,
        remedy="Take it out of the report, or photograph again.",
    )
