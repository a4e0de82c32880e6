"""From a photograph of a label to the texts of its codes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError
from inventory.jobs.receiving.pictures import grey_picture

if TYPE_CHECKING:
    from PIL.Image import Image

FIRST_SIDE = 2000
"""Pixels of the longer side at the first look; four times faster than a whole photograph."""
LAST_SIDE = 8192
"""Of the second look, where the first found nothing."""
_LABEL = "photo"


class NoSingleCodeError(InventoryError):
    """The picture holds no code of ours, or several different ones."""


def texts_in(photo: bytes) -> list[str]:
    """Return the different texts of all codes of our kinds in a photograph, in no order.

    A label carries one text in two codes, so equal texts count once. What is no picture, or too
    large a one, is refused.
    """
    first = grey_picture(photo, _LABEL, FIRST_SIDE)
    found = _decoded(first)
    if found or max(first.size) < FIRST_SIDE:
        return found
    return _decoded(grey_picture(photo, _LABEL, LAST_SIDE))


def one_text(photo: bytes) -> str:
    """Return the one text in a photograph; none, or several, are refused: nothing is guessed."""
    texts = texts_in(photo)
    if not texts:
        raise NoSingleCodeError(
            "no code of ours can be read in the picture",
            remedy="Go nearer, hold the label flat, and keep the light off it; or type it.",
        )
    if len(texts) > 1:
        raise NoSingleCodeError(
            f"{len(texts)} different codes are in the picture",
            remedy="Photograph one label alone, or cover the others.",
        )
    return texts[0]


def _decoded(picture: Image) -> list[str]:
    import zxingcpp  # noqa: PLC0415 - only for photos

    kinds = zxingcpp.BarcodeFormat
    found = zxingcpp.read_barcodes(
        picture,
        formats=zxingcpp.BarcodeFormats([kinds.Code128, kinds.QRCode, kinds.DataMatrix]),
        text_mode=zxingcpp.TextMode.Plain,
        try_invert=False,  # our codes are dark on light; looking for others doubles the time
    )
    return sorted({each.text for each in found if each.text})
