"""Parts that stand more than once on a list, or under two descriptions: kept, and said."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from inventory.core.items import part_key

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from inventory.core.lists.packing import PackingLine

_SAID = 5
"""Cases told of one kind; the others are counted."""


def listed_twice(lines: Iterable[PackingLine]) -> tuple[str, ...]:
    """Return a sentence for each part listed twice in one place, or described in two ways.

    Nothing is merged and nothing held: a list may well mean it. A part that goes into several
    sub-kits, crates or bags, in several lengths or in both hands, is no case of it.
    """
    same: dict[object, list[PackingLine]] = defaultdict(list)
    named: dict[object, dict[str, PackingLine]] = defaultdict(dict)
    for line in lines:
        item = (part_key(line.part), line.hand, line.length)
        same[(*item, line.crate, line.bag, line.sub_kit)].append(line)
        if line.description:
            named[item].setdefault(" ".join(line.description.casefold().split()), line)
    return (*_told(map(_twice, _several(same))), *_told(map(_two_names, _several_names(named))))


def _several(groups: Mapping[object, Sequence[PackingLine]]) -> list[Sequence[PackingLine]]:
    return [group for group in groups.values() if len(group) > 1]


def _several_names(named: Mapping[object, Mapping[str, PackingLine]]) -> list[list[PackingLine]]:
    return [list(group.values()) for group in named.values() if len(group) > 1]


def _twice(group: Sequence[PackingLine]) -> str:
    rows = [str(line.row) for line in group]
    return f"{group[0].part} is listed in rows {_and(rows)}: each counts as a line of its own"


def _two_names(group: Sequence[PackingLine]) -> str:
    names = [f"{line.description} (row {line.row})" for line in group]
    return f"{group[0].part} is described as {_and(names)}: compare both with the plans"


def _and(words: Sequence[str]) -> str:
    return f"{', '.join(words[:-1])} and {words[-1]}"


def _told(sentences: Iterable[str]) -> list[str]:
    every = list(sentences)
    more = len(every) - _SAID
    return every if more <= 0 else [*every[:_SAID], f"... and {more} more such parts"]
