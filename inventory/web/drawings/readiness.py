"""The sign of how far a step is: a shape for each state, the same as on the pages."""

from __future__ import annotations

from inventory.core.planning.ready import Readiness
from inventory.web.drawings.marks import path

_SHAPES = {
    Readiness.DONE: (("M-7-7h14v14h-14z", "full"), ("m-5 0 4 4 6-8", "tick")),
    Readiness.READY: (("M-7 0a7 7 0 1 0 14 0a7 7 0 1 0-14 0z", "full"),),
    Readiness.READY_ALONE: (
        ("M-7 0a7 7 0 1 0 14 0a7 7 0 1 0-14 0z", "box"),
        ("M-3.5 0a3.5 3.5 0 1 0 7 0a3.5 3.5 0 1 0-7 0z", "full"),
    ),
    Readiness.PREPARE: (("M0-8 8 7H-8z", "box"),),
    Readiness.PARTIAL: (
        ("M-7 0a7 7 0 1 0 14 0a7 7 0 1 0-14 0z", "box"),
        ("M0-7a7 7 0 0 0 0 14z", "full"),
    ),
    Readiness.SHORT: (("M0-9 9 0 0 9-9 0z", "box"), ("M-4 0h8", "line")),
    Readiness.WAITS: (("M-6-7h4v14h-4zM2-7h4v14h-4z", "box"),),
}


def sign(readiness: Readiness, x: float, y: float) -> str:
    """Return the sign with its middle at a point."""
    marks = "".join(path(d, kind) for d, kind in _SHAPES[readiness])
    return f'<g transform="translate({x:g} {y:g})">{marks}</g>'
