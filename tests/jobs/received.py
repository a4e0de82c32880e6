"""A kit whose delivery was counted: what lacks, what came harmed, what is still to come."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING, Any

from inventory.core.items import Hand
from inventory.core.lists.packing import PackingList
from inventory.core.receiving.delivery import DeliveryFacts
from inventory.jobs.bench.finding_items import Asked
from inventory.jobs.lists.unpacking import take_in
from inventory.jobs.receiving.counting import TypedCount, count_typed
from inventory.jobs.receiving.deliveries import record_delivery
from inventory.jobs.receiving.receiving import close_crate
from tests.jobs.conftest import line

if TYPE_CHECKING:
    from collections.abc import Callable

    from inventory.core.lists.packing import PackingLine
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench

    Slips = Callable[..., Slip]

FACTS = DeliveryFacts(
    supplier="Curlew Slip Kit Works",
    carrier="Tern Freight",
    carriage="us-truck",
    delivered_on=date(2026, 3, 12),
    bill_of_lading="BL-9",
    window_days=30,
)
BACK_ORDER = line("HORN", 6, 1, crate="2 OF 2", back_ordered=2, remark="week 20")


def a_list(number: int, *lines: PackingLine, source: str = "slip.xlsx") -> PackingList:
    return PackingList(source=source, sha256=f"{number:064}", lines=lines)


def counted(
    bench: Bench,
    slip: Slips,
    crate: str,
    part: str,
    pieces: int | str,
    **more: Any,  # noqa: ANN401
) -> None:
    asked = Asked(part=part, hand=more.pop("hand", None))
    typed = TypedCount(crate=crate, asked=asked, pieces=str(pieces))
    said: dict[str, Any] = {name: str(value) for name, value in more.items()}
    count_typed(bench, replace(typed, **said), slip())


def received(bench: Bench, slip: Slips) -> None:
    """Crate 1: a left rib too many, a right one too few, the spar bent. Crate 2: two bolts short.

    One horn of three came; two are on back-order.
    """
    take_in(bench, a_list(7, replace(BACK_ORDER, ordered=3), source="more.xlsx"), slip())
    record_delivery(bench, lambda _: FACTS, slip(), lists=[1, 2])
    counted(bench, slip, "1", "RIB-1", 3, hand=Hand.LEFT)
    counted(bench, slip, "1", "RIB-1", 1, hand=Hand.RIGHT)
    counted(bench, slip, "1", "SPAR", 1, damaged=1)
    counted(bench, slip, "2", "AN3-5A", 10, bag="H1")
    counted(bench, slip, "2", "ANGLE", 1)
    counted(bench, slip, "2", "HORN", 1)
    for crate in ("1", "2"):
        close_crate(bench, crate, slip())
