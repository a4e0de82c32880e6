"""A progress bar of plain characters."""

from __future__ import annotations

SIGNS = 20


def bar(done: int, whole: int) -> str:
    """Return a bar with the numbers beside it: `[#####...............] 10/40`."""
    full = SIGNS * done // whole if whole else SIGNS
    return f"[{'#' * full}{'.' * (SIGNS - full)}] {done}/{whole}"
