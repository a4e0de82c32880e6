"""Parts that stand more than once on a list, or under two descriptions: kept, and said."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Hashable, Mapping, Sequence

    from inventory.core.lists.packing import PackingLine

_SAID = 5
"""Cases told of one kind; the others are counted, unless it is only one."""
_NAMED = 5
"""Rows or descriptions named in one sentence, the number of the others among them."""


def listed_twice(lines: Sequence[PackingLine]) -> tuple[str, ...]:
    """Return a sentence for each part listed twice in one place, or described in two ways.

    Nothing is merged and nothing held: a list may well mean it. A part that goes into several
    sub-kits, crates or bags, in several lengths or in both hands, is no case of it.
    """
    same: dict[Hashable, list[PackingLine]] = {}
    described: dict[Hashable, dict[str, PackingLine]] = {}
    for line in _of_repeated_parts(lines):
        item = line.part, line.hand, line.length
        same.setdefault((item, line.crate, line.bag, line.sub_kit), []).append(line)
        if line.description:
            described.setdefault(item, {}).setdefault(line.description, line)
    twice = [group for group in same.values() if len(group) > 1]
    two_names = [group for group in map(_two_ways, described.values()) if len(group) > 1]
    return (*_told(_twice, twice), *_told(_two_names, two_names))


def _of_repeated_parts(lines: Sequence[PackingLine]) -> list[PackingLine]:
    """Return the lines of parts that have more than one; on most lists these are few."""
    times = Counter(line.part for line in lines)
    return [line for line in lines if times[line.part] > 1]


def _two_ways(described: Mapping[str, PackingLine]) -> list[PackingLine]:
    """Return the first line under each description; blanks and case make no second one."""
    ways: dict[tuple[str, ...], PackingLine] = {}
    for description, line in described.items():
        ways.setdefault(tuple(description.casefold().split()), line)
    return list(ways.values())


def _twice(group: Sequence[PackingLine]) -> str:
    rows = [str(line.row) for line in group]
    said = _and(rows, "more rows")
    return f"{group[0].part} is listed in rows {said}: each counts as a line of its own"


def _two_names(group: Sequence[PackingLine]) -> str:
    names = [f"{line.description} (row {line.row})" for line in group]
    said = _and(names, "other ways")
    return f"{group[0].part} is described as {said}: compare them with the plans"


def _and(words: Sequence[str], others: str) -> str:
    """Name them all, or of many the first and how many others there are."""
    if len(words) > _NAMED:
        words = [*words[: _NAMED - 1], f"{len(words) - _NAMED + 1} {others}"]
    return f"{', '.join(words[:-1])} and {words[-1]}"


def _told(
    sentence: Callable[[Sequence[PackingLine]], str], groups: Sequence[Sequence[PackingLine]]
) -> list[str]:
    shown = groups if len(groups) <= _SAID + 1 else groups[:_SAID]
    told = [sentence(group) for group in shown]
    more = len(groups) - len(shown)
    return [*told, f"... and {more} more such parts"] if more else told
