"""Part numbers that look like a typed one: shown as questions, never taken as the answer."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.items import part_key

if TYPE_CHECKING:
    from collections.abc import Sequence

MOST = 3
FARTHEST = 2
"""Edits (Damerau and Levenshtein) beyond which a number isn't shown."""


def near_numbers(text: str, known: Sequence[str]) -> list[str]:
    """Return up to three known numbers nearest to the text, the nearest first."""
    from rapidfuzz import process  # noqa: PLC0415 - only a wrong number needs it
    from rapidfuzz.distance import DamerauLevenshtein  # noqa: PLC0415

    found = process.extract(
        part_key(text),
        list(dict.fromkeys(known)),
        scorer=DamerauLevenshtein.distance,
        processor=part_key,
        score_cutoff=FARTHEST,
        limit=MOST,
    )
    return [number for number, _, _ in found]
