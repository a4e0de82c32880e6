"""The address of a running server as a QR code: for a terminal, and as a drawing."""

from __future__ import annotations

from labels.symbol import Square, cells

_HALVES = {"00": "█", "01": "▀", "10": "▄", "11": " "}
"""Two cells one above the other; dark cells of the code are the terminal's dark background."""


def code_blocks(text: str) -> str:
    """Return the code in half-height blocks, for a terminal that is light on dark."""
    rows = _with_quiet(text)
    if len(rows) % 2:
        rows.append("0" * len(rows[0]))
    pairs = zip(rows[::2], rows[1::2], strict=True)
    return "\n".join(
        "".join(_HALVES[above + below] for above, below in zip(*pair, strict=True))
        for pair in pairs
    )


def code_svg(text: str) -> str:
    """Return the code as one drawing, dark on white with its quiet zone."""
    rows = _with_quiet(text)
    size = len(rows)
    path = "".join(
        f"M{column} {row}h1v1h-1z"
        for row, line in enumerate(rows)
        for column, cell in enumerate(line)
        if cell == "1"
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {size} {size}" role="img"'
        ' shape-rendering="crispEdges"><title>QR code of the address</title>'
        f'<rect width="{size}" height="{size}" fill="#fff"/><path d="{path}" fill="#000"/></svg>'
    )


def _with_quiet(text: str) -> list[str]:
    symbol = cells(text, Square.QR)
    blank = "0" * (symbol.size + 2 * symbol.quiet)
    side = "0" * symbol.quiet
    inner = [f"{side}{row}{side}" for row in symbol.rows]
    return [*[blank] * symbol.quiet, *inner, *[blank] * symbol.quiet]
