"""Addresses of the pages of a kit."""

from __future__ import annotations

from urllib.parse import quote, urlencode


def to(kit: str, page: str = "", **query: object) -> str:
    """Return the path of a page of a kit; empty values are left out."""
    said = {name: str(value) for name, value in query.items() if value not in ("", None)}
    return f"/{kit}/{page}" + (f"?{urlencode(said, quote_via=quote)}" if said else "")
