"""A PDF to draw on: the same marks give the same bytes."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from io import BytesIO

    from reportlab.pdfgen.canvas import Canvas


def open_canvas(written: BytesIO) -> Canvas:
    """Return a canvas that compresses its pages and stamps neither clock nor chance on them."""
    from reportlab import rl_config  # noqa: PLC0415  # 50 ms
    from reportlab.pdfgen.canvas import Canvas  # noqa: PLC0415

    rl_config.useA85 = 0  # bytes as they are: smaller by a fifth, and three times as fast
    canvas = Canvas(written, pageCompression=1, invariant=1)
    canvas.setProducer("Kitwright")
    return canvas
