"""What is still to come, and by when: back-orders, replacements, and the days promised."""

from __future__ import annotations

from collections import Counter, defaultdict
from dataclasses import replace
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.receiving.arrivals import settled_lines

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable, Iterator, Sequence

    from inventory.core.receiving.arrivals import Arrival, Expected, ListedLine, Promise, Wanted


@frozen(kw_only=True)
class Coming:
    """Something still to come; quantities in the part's measure."""

    wanted: Wanted
    printed: str
    description: str = ""
    pieces: int
    source: str
    """From which line or report, in words."""
    line: int | None = None
    expected: int | None = None
    report: int | None = None
    promised: dt.date | None = None
    latest: dt.date | None = None

    def overdue(self, today: dt.date) -> bool:
        """Say whether the late end of the promise is past."""
        end = self.latest or self.promised
        return end is not None and end < today


def still_coming(
    lines: Sequence[ListedLine],
    expected: Sequence[Expected],
    arrivals: Sequence[Arrival],
    promises: Iterable[Promise],
) -> list[Coming]:
    """Return what is still to come, each with the date it is promised for, where there is one.

    What was promised for an earlier day came first: what arrived since is taken off there.
    """
    came = Counter[int]()
    for arrival in arrivals:
        if arrival.expected is not None:
            came[arrival.expected] += arrival.pieces
    due = [_of_line(each) for each in settled_lines(lines, arrivals) if each.line.back_ordered]
    due += [
        _of_report(each, each.pieces - came[each.id])
        for each in expected
        if each.pieces > came[each.id]
    ]
    dated = standing_promises(promises, arrivals, expected)
    return [part for each in due for part in _with_dates(each, dated[each.wanted])]


def _of_line(each: ListedLine) -> Coming:
    line = each.line
    where = f"back-order, row {line.row} of packing list {each.packing_list}"
    return Coming(
        wanted=each.wanted,
        printed=line.printed,
        description=line.description,
        pieces=line.back_ordered,
        source=f"{where} ({line.remark})" if line.remark else where,
        line=each.id,
    )


def _of_report(each: Expected, pieces: int) -> Coming:
    return Coming(
        wanted=each.wanted,
        printed=each.printed,
        pieces=pieces,
        source=f"to be sent, report {each.report}",
        expected=each.id,
        report=each.report,
    )


def standing_promises(
    promises: Iterable[Promise], arrivals: Iterable[Arrival], expected: Iterable[Expected]
) -> defaultdict[Wanted, list[Promise]]:
    """Return the promises that hold, by item, the earliest first, less what came since."""
    newest: defaultdict[Wanted, list[Promise]] = defaultdict(list)
    for promise in promises:
        kept = newest[promise.wanted]
        if kept and kept[0].slip < promise.slip:
            kept.clear()
        kept.append(promise)
    for kept in newest.values():
        kept.sort(key=lambda each: (each.promised is None, str(each.promised)))
    reports: dict[int | None, int] = {each.id: each.report for each in expected}
    for arrival in arrivals:
        kept = newest[arrival.wanted]
        if kept and arrival.slip > kept[0].slip:
            _use_up(kept, arrival.pieces, reports.get(arrival.expected))
    return newest


def _use_up(promises: list[Promise], pieces: int, report: int | None) -> list[Promise]:
    """Take pieces off the promises that are meant, and return what was taken, by its days.

    A promise that answers a report dates what that report is to bring, and nothing else.
    """
    taken: list[Promise] = []
    left = pieces
    for promise in sorted(promises, key=lambda each: each.report is None):
        if not left or promise.report not in (None, report):
            continue
        some = min(left, promise.pieces) if promise.pieces else left
        left -= some
        taken.append(replace(promise, pieces=some))
        if promise.pieces:
            rest = replace(promise, pieces=promise.pieces - some)
            place = promises.index(promise)
            promises[place : place + 1] = [rest] if rest.pieces else []
    return taken


def _with_dates(coming: Coming, promises: list[Promise]) -> Iterator[Coming]:
    """Split what is to come by the days promised; promises are used up on the way."""
    left = coming.pieces
    for each in _use_up(promises, coming.pieces, coming.report):
        left -= each.pieces
        yield replace(coming, pieces=each.pieces, promised=each.promised, latest=each.latest)
    if left:
        yield replace(coming, pieces=left)
