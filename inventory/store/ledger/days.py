"""Days as they stand in a row: by ISO 8601, empty where nobody said one."""

from __future__ import annotations

from datetime import date


def day_text(day: date | None) -> str:
    """Return a day as it is stored."""
    return day.isoformat() if day else ""


def day_of(text: str) -> date | None:
    """Return a stored day; None where none was said."""
    return date.fromisoformat(text) if text else None
