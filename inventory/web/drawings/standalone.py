"""A drawing as a file of its own, with its style in it."""

from __future__ import annotations

from functools import cache
from pathlib import Path

_STYLE = Path(__file__).parents[1] / "static" / "drawings.css"
_HEAD_END = "</title>"


@cache
def _style() -> str:
    return _STYLE.read_text(encoding="utf-8")


def standalone(svg: str) -> str:
    """Return the drawing with its style sheet and a white ground, so that it opens anywhere."""
    ground = '<rect width="100%" height="100%" fill="#fff"/>'
    head, end, rest = svg.partition(_HEAD_END)
    return f"{head}{end}<style>{_style()}</style>{ground}{rest}"
