"""Short parts as people ask for them: each once, with how many, which steps, and until when."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.web.words import amount

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable

    from inventory.core.items import Hand
    from inventory.core.planning.shortage import NetNeed
    from inventory.core.planning.workshop import Due


@frozen
class ShortPart:
    """One part of one hand and length that lacks somewhere in the plan."""

    part: str
    printed: str
    description: str
    hand: Hand
    short: str
    """In the part's measure, in words."""
    steps: tuple[str, ...]
    """Steps that lack it, in build order."""
    due: tuple[Due, ...]
    """What is still to come of it, and from where."""
    covered_on: dt.date | None
    """The day by which every step gets its pieces; None where no promise reaches so far."""


def short_parts(short: Iterable[NetNeed]) -> list[ShortPart]:
    """Return the short parts, those that stop most steps first."""
    groups: defaultdict[tuple[str, Hand, int], list[NetNeed]] = defaultdict(list)
    for net in short:
        if net.stops:
            groups[net.need.part, net.need.hand, net.need.length].append(net)
    found = [_short_part(nets) for nets in groups.values()]
    return sorted(found, key=lambda one: -len(one.steps))


def _short_part(nets: list[NetNeed]) -> ShortPart:
    first = nets[0].need
    days = [net.covered_on for net in nets]
    known = [day for day in days if day is not None]
    total = sum(net.short for net in nets)
    return ShortPart(
        part=first.part,
        printed=first.printed or first.part,
        description=next((net.need.description for net in nets if net.need.description), ""),
        hand=first.hand,
        short=amount(first, total) if total else "any",
        steps=tuple(dict.fromkeys(net.need.step for net in nets)),
        due=tuple(dict.fromkeys(share.due for net in nets for share in net.due)),
        covered_on=max(known) if len(known) == len(days) else None,
    )
