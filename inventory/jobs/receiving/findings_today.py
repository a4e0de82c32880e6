"""What differs today between goods, lists, orders and plan, and which delivery it concerns."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.lists.list_against_plan import list_against_plan
from inventory.core.lists.listed_numbers import listed_number
from inventory.core.receiving.arrivals import settled_finding
from inventory.core.receiving.findings import FindingKind
from inventory.core.receiving.receipt import findings
from inventory.core.receiving.tally import tally
from inventory.jobs.receiving.still_coming import receipt_within
from inventory.store.opening.one_moment import read_once
from inventory.store.planning.plans import current_plan
from inventory.store.receiving.arrivals import all_arrivals, all_expected
from inventory.store.receiving.deliveries import all_deliveries
from inventory.store.receiving.packing_lists import saved_lists

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from inventory.core.lists.packing import PackingLine
    from inventory.core.receiving.arrivals import Expected, ListedLine
    from inventory.core.receiving.delivery import Delivery
    from inventory.core.receiving.findings import Finding
    from inventory.core.receiving.tally import LineTally
    from inventory.jobs.acts import Bench
    from inventory.jobs.receiving.still_coming import Receipt
    from inventory.store.kits import Kit
    from inventory.store.opening.database import Connection
    from inventory.store.receiving.packing_lists import SavedList

NOT_RECEIVED = frozenset(
    {
        FindingKind.PACKAGE_MISSING, FindingKind.SHORT, FindingKind.WRONG_HAND,
        FindingKind.BACK_ORDER,
    }
)  # fmt: skip
_BREAK = "\n"
"""No sheet's name holds a line feed."""


@frozen
class PlacedFinding:
    """A finding with the list and the delivery it concerns; None where nobody can tell."""

    finding: Finding
    packing_list: int | None
    delivery: int | None


@frozen
class ListTally:
    """One line of a list with its six quantities."""

    packing_list: int
    tally: LineTally


@read_once
def placed_findings(db: Connection, kit: Kit) -> list[PlacedFinding]:
    """Return all differences, the worst first; what was sent for one since is taken off."""
    receipt = receipt_within(db, kit)
    counts = [each.count for each in receipt.counts]
    found = findings([_named(each) for each in receipt.lines], counts, receipt.packages)
    places = _Places(receipt.lines, all_deliveries(db, kit.id))
    expected = _of_revised(all_expected(db, kit.id), receipt.lines, saved_lists(db, kit.id))
    arrivals = all_arrivals(db, kit.id)
    placed: list[PlacedFinding] = []
    for one in found:
        packing_list, bare = _bare(one)
        left = settled_finding(packing_list, bare, expected, arrivals)
        if left is not None:
            placed.append(PlacedFinding(left, packing_list, places.delivery_of(packing_list, left)))
    return placed


def _of_revised(
    expected: Iterable[Expected], lines: Sequence[ListedLine], lists: Iterable[SavedList]
) -> list[Expected]:
    """Let what was expected for a line of a list that was revised stand for the revised line."""
    newer = {saved.replaces: saved.id for saved in lists}
    found: list[Expected] = []
    for each in expected:
        current = each.packing_list
        while current in newer:
            current = newer[current]
        line = next(
            (
                one.line
                for one in lines
                if current != each.packing_list
                and (one.packing_list, one.wanted) == (current, each.wanted)
                and (one.line.crate, one.line.bag) == (each.crate, each.bag)
            ),
            None,
        )
        if line is not None:
            found.append(replace(each, packing_list=current, sheet=line.sheet, row=line.row))
        else:
            found.append(each)
    return found


def _named(each: ListedLine) -> PackingLine:
    """Return the line with its list's number before the sheet's name, so that findings tell it."""
    return replace(each.line, sheet=f"{each.packing_list:09}{_BREAK}{each.line.sheet}")


def _bare(finding: Finding) -> tuple[int | None, Finding]:
    number, line_feed, sheet = finding.sheet.partition(_BREAK)
    if not line_feed:
        return None, finding
    return int(number), replace(finding, sheet=sheet)


class _Places:
    """Which delivery a list or a crate came with."""

    def __init__(self, lines: Sequence[ListedLine], deliveries: Sequence[Delivery]) -> None:
        self._of_list = {each: one.number for one in deliveries for each in one.lists}
        if len(deliveries) == 1 and not self._of_list:
            self._of_list = {each.packing_list: deliveries[0].number for each in lines}
        self._lists_of_crate: dict[str, set[int]] = {}
        for each in lines:
            self._lists_of_crate.setdefault(each.line.crate, set()).add(each.packing_list)
        self._only = deliveries[0].number if len(deliveries) == 1 else None

    def delivery_of(self, packing_list: int | None, finding: Finding) -> int | None:
        if packing_list is not None:
            return self._of_list.get(packing_list)
        named = self._lists_of_crate.get(finding.crate, set())
        found = {self._of_list.get(each) for each in named}
        return found.pop() if len(found) == 1 else self._only


@frozen
class NeverCame:
    """A finding about what never came, and the list that should have brought it."""

    finding: Finding
    supplier: str
    order_number: str


def never_came(bench: Bench) -> list[NeverCame]:
    """Return what was never received: short, in the other hand, or to follow by the list."""
    with bench.store.reading() as db:
        placed = placed_findings(db, bench.kit)
        lists = {saved.id: saved for saved in saved_lists(db, bench.kit.id)}
    found: list[NeverCame] = []
    for each in placed:
        if each.finding.kind in NOT_RECEIVED:
            saved = lists.get(each.packing_list) if each.packing_list else None
            supplier, order = (saved.supplier, saved.order_number) if saved else ("", "")
            found.append(NeverCame(each.finding, supplier, order))
    return found


def line_tallies(bench: Bench) -> list[ListTally]:
    """Return the six quantities of every line, in the order of the lists."""
    with bench.store.reading() as db:
        receipt = receipt_within(db, bench.kit)
    return list(_tallies(receipt))


def _tallies(receipt: Receipt) -> Iterator[ListTally]:
    tallied = tally([each.line for each in receipt.lines], [each.count for each in receipt.counts])
    for each, one in zip(receipt.lines, tallied.lines, strict=True):
        yield ListTally(each.packing_list, one)


def against_plan(bench: Bench) -> list[Finding]:
    """Return the parts of which the lists hold less than the whole plan needs."""
    with bench.store.reading() as db:
        lines = [each.line for each in receipt_within(db, bench.kit).lines]
        return list_against_plan(lines, current_plan(db, bench.kit.id))


def numbers_of(bench: Bench, found: Sequence[Finding]) -> list[tuple[str, str, str]]:
    """Return listed, counted and difference of each finding as numbers of the list's unit."""
    with bench.store.reading() as db:
        lines = [each.line for each in receipt_within(db, bench.kit).lines]
    by_place = {(line.sheet, line.row, line.part): line for line in lines}
    told: list[tuple[str, str, str]] = []
    for one in found:
        line = by_place.get((one.sheet, one.row, one.part))
        listed, counted, pieces = (
            listed_number(line, quantity) for quantity in (one.listed, one.counted, one.pieces)
        )
        told.append((listed, counted, pieces))
    return told
