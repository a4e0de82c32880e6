"""Lines and counts that the tests of receiving are written with."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.items import Hand
from inventory.core.lists.packing import CountRule, PackingLine
from inventory.core.receiving.counts import Count

if TYPE_CHECKING:
    from inventory.core.receiving.findings import Finding, FindingKind

LEFT, RIGHT, NONE = Hand.LEFT, Hand.RIGHT, Hand.NONE


def line(
    part: str = "T2-FL-0412",
    shipped: int = 8,
    *,
    row: int = 12,
    ordered: int | None = None,
    back_ordered: int = 0,
    hand: Hand = NONE,
    crate: str = "1",
    bag: str = "",
    rule: CountRule = CountRule.COUNTED,
    revision: str = "",
    length: int = 0,
) -> PackingLine:
    return PackingLine(
        sheet="Floats",
        row=row,
        part=part,
        printed=part,
        description="frame",
        hand=hand,
        ordered=shipped + back_ordered if ordered is None else ordered,
        shipped=shipped,
        back_ordered=back_ordered,
        crate=crate,
        bag=bag,
        count_rule=rule,
        revision=revision,
        length=length,
    )


def counted(
    good: int = 8,
    part: str = "T2-FL-0412",
    *,
    crate: str = "1",
    hand: Hand = NONE,
    damaged: int = 0,
) -> Count:
    return Count(part=part, hand=hand, crate=crate, pieces_good=good, pieces_damaged=damaged)


def kinds(found: list[Finding]) -> list[tuple[FindingKind, Hand, int]]:
    return [(finding.kind, finding.hand, finding.pieces) for finding in found]
