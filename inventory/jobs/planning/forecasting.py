"""When each step can begin by what was promised, and what a delay moves."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from inventory.core.errors import NotFoundError
from inventory.core.frozen import frozen
from inventory.core.planning.forecast import Outlook, delayed, forecast, moved
from inventory.core.planning.shortage import net
from inventory.jobs.planning.workshop_today import today

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import date

    from inventory.core.planning.forecast import Moved, StepForecast
    from inventory.core.planning.workshop import Due
    from inventory.jobs.acts import Bench


@frozen
class Slipping:
    """What the person reckons with beside the promises."""

    days: int = 0
    """Days by which deliveries come later than promised."""
    source: str = ""
    """Words of the deliveries that are late; empty for all of them."""
    late: bool = False
    """Reckon with the late end of each range of dates, in both answers."""


@frozen
class Forecasts:
    """When each step can begin as promised, and what changes under a slip."""

    promised: tuple[StepForecast, ...]
    changed: tuple[Moved, ...]


def forecasts(bench: Bench, day: date, slipping: Slipping) -> Forecasts:
    """Return when each step not done can begin; a second pass tells what a slip moves."""
    now = today(bench, day)
    outlook = Outlook(today=day, late=slipping.late)
    netting = now.netting
    promised = forecast(netting, now.workshop, outlook)
    if not slipping.days:
        return Forecasts(promised, ())
    if not slipping.source:
        later = forecast(netting, now.workshop, replace(outlook, slip=slipping.days))
        return Forecasts(promised, moved(promised, later))
    workshop = now.workshop
    for source in _sources(now.workshop.due, slipping.source):
        workshop = delayed(workshop, source, slipping.days)
    later = forecast(net(now.plan, workshop), workshop, outlook)
    return Forecasts(promised, moved(promised, later))


def _sources(due: Iterable[Due], words: str) -> list[str]:
    every = dict.fromkeys(each.source for each in due)
    found = [source for source in every if words.casefold() in source.casefold()]
    if not found:
        raise NotFoundError(
            f"no delivery still to come is named {words!r}",
            remedy=f"There are: {'; '.join(list(every)[:10])}." if every else "Nothing is due.",
        )
    return found
