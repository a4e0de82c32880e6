"""Revisions of a part that the plans ask for, beside those that were listed and counted."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING, NamedTuple

from inventory.core.errors import Problem

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from inventory.core.planning.plan import Need


def asked_revisions(needs: Iterable[Need]) -> dict[str, tuple[str, ...]]:
    """Return the revisions that needs of one part ask for, each with its steps."""
    found: dict[str, list[str]] = {}
    for need in needs:
        if need.revision:
            found.setdefault(_plain(need.revision), []).append(need.step)
    return {revision: tuple(dict.fromkeys(steps)) for revision, steps in found.items()}


def other_revisions(asked: Iterable[str], there: Iterable[str]) -> tuple[str, ...]:
    """Return the revisions marked or listed that the plans don't ask for; none where they ask none.

    A blank says nothing. Whether another revision may be used is for the plans, the supplier and
    who decides by them.
    """
    wanted = {_plain(revision) for revision in asked} - {""}
    others = (_plain(revision) for revision in there)
    return tuple(dict.fromkeys(each for each in others if each and wanted and each not in wanted))


class OtherRevision(NamedTuple):
    """A part that is there in another revision than the plans ask for."""

    need: Need
    """The first that asks."""
    asked: tuple[str, ...]
    other: tuple[str, ...]


def parts_in_other_revisions(
    needs: Iterable[Need], there: Iterable[tuple[str, str]]
) -> Iterator[OtherRevision]:
    """Yield the parts of needs that are there in another revision, in the order of the needs.

    `there` are part keys with the revisions that were listed or marked.
    """
    asking: dict[str, list[Need]] = {}
    for need in needs:
        if need.revision:
            asking.setdefault(need.part, []).append(need)
    by_part: defaultdict[str, list[str]] = defaultdict(list)
    for part, revision in there:
        by_part[part].append(revision)
    for part, of_part in asking.items():
        asked = tuple(asked_revisions(of_part))
        other = other_revisions(asked, by_part[part])
        if other:
            yield OtherRevision(of_part[0], asked, other)


def revision_problems(
    needs: Iterable[Need], listed: Iterable[tuple[str, str]]
) -> Iterator[Problem]:
    """Yield each part that was listed in another revision than the plans ask for.

    `listed` are part keys with the revisions of the packing lists.
    """
    for need, asked, other in parts_in_other_revisions(needs, listed):
        yield Problem(
            f"the plan asks for revision {' and '.join(asked)} of {need.printed or need.part}, "
            f"the packing lists have {' and '.join(other)}",
            need.where or f"row {need.row}",
            "Compare with the plans, and ask the supplier before it is used",
        )


def _plain(revision: str) -> str:
    words = revision.upper().replace(".", " ").split()
    return " ".join(words[1:] if words[:1] in (["REV"], ["REVISION"], ["ISSUE"]) else words)
