"""Sentences wrapped to the terminal's width."""

from __future__ import annotations

import textwrap

from inventory.cli.table import screen_width
from inventory.core.plain import plain


def paragraph(text: str, indent: str = "") -> list[str]:
    """Return the lines of a paragraph, none wider than the terminal."""
    return textwrap.wrap(
        plain(text), screen_width(), initial_indent=indent, subsequent_indent=indent
    )


def hanging(text: str, indent: int) -> list[str]:
    """Return a line whose rest, where it is too long, stands so far in on the next ones."""
    return textwrap.wrap(
        plain(text),
        screen_width(),
        subsequent_indent=" " * indent,
        replace_whitespace=False,
        break_on_hyphens=False,
    )
