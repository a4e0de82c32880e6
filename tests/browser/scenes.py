"""Pictures of printed labels: from the real label sheet to a photograph and a camera's video."""

from __future__ import annotations

from io import BytesIO
from typing import TYPE_CHECKING

from PIL import Image

from inventory.documents.bin_labels import BinLabel, bin_labels
from tests.labels.raster import printed, raster

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from pathlib import Path

DOTS = 200
FRAME = (1280, 720)


def label(own_id: str, name: str) -> Image.Image:
    """Return a printed bin label as a picture."""
    sheet = bin_labels([BinLabel(own_id=own_id, name=name)])
    page = printed(raster(sheet.pdf, DOTS))
    return page.crop(page.point(lambda grey: 255 - grey).getbbox())


def scene(labels: Sequence[Image.Image], tilt: float = 0.0) -> Image.Image:
    """Return labels on a grey table, one below the other."""
    table = Image.new("L", FRAME, 190)
    room = FRAME[1] // max(1, len(labels))
    for place, each in enumerate(labels):
        paper = Image.new("L", (each.width + 40, each.height + 40), 255)
        paper.paste(each, (20, 20))
        scale = min(1.0, (room - 40) / paper.height)
        small = paper.resize((int(paper.width * scale), int(paper.height * scale)))
        turned = small.rotate(tilt, expand=True, fillcolor=190)
        table.paste(turned, (60, place * room + (room - turned.height) // 2))
    return table


def photo(picture: Image.Image) -> bytes:
    """Return a picture as a phone sends it."""
    file = BytesIO()
    picture.convert("RGB").save(file, "JPEG", quality=85)
    return file.getvalue()


def video(frames: Iterable[Image.Image], path: Path) -> Path:
    """Write frames as a video that Chromium takes for its fake camera.

    JPEG frames one after another; with another chroma subsampling than 4:2:0 it shows green.
    """
    with path.open("wb") as file:
        for frame in frames:
            frame.convert("RGB").save(file, "JPEG", quality=90, subsampling=2)
    return path
