"""A check of cutting plans that shares nothing with what makes them."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from inventory.core.cutting.job import CutJob, CutPlan, CutStick


def faults(job: CutJob, plan: CutPlan) -> list[str]:
    """Return what is wrong with a plan: each piece once, each stick there and long enough."""
    wanted: Counter[tuple[int, str]] = Counter()
    for piece in job.pieces:
        wanted[piece.length, piece.name] += piece.quantity
    given: Counter[tuple[int, str]] = Counter()
    for piece in [*(piece for stick in plan.sticks for piece in stick.pieces), *plan.uncut]:
        given[piece.length, piece.name] += piece.quantity
    wrong = [] if wanted == given else [f"pieces: {wanted} wanted, {given} planned"]
    wrong += [fault for stick in plan.sticks for fault in stick_faults(job, stick)]
    there: Counter[object] = Counter()
    for stock in job.stock:
        there[stock] += 10**9 if stock.quantity is None else stock.quantity
    used = Counter(stick.stock for stick in plan.sticks)
    wrong += [f"{used[stock]} of {stock}" for stock in used if used[stock] > there[stock]]
    priced = all(stock.price is not None for stock in job.stock if stock.owned.name == "TO_BUY")
    cost = sum(
        (stick.stock.price or 0) if priced else stick.stock.length
        for stick in plan.sticks
        if stick.stock.owned.name == "TO_BUY"
    )
    wrong += [] if cost == plan.cost else [f"cost {cost}, said {plan.cost}"]
    wrong += [] if plan.bound <= plan.cost else [f"bound {plan.bound} above the cost {plan.cost}"]
    return wrong


def stick_faults(job: CutJob, stick: CutStick) -> list[str]:
    """Return what is wrong with one stick: the rule of hardware practice, and its balance."""
    lengths = [piece.length for piece in stick.pieces]
    needed = sum(lengths) + job.saw.kerf * (len(lengths) - 1) + job.saw.trim
    wrong = [] if lengths and needed <= stick.stock.length else [f"{lengths} on {stick.stock}"]
    remnant = max(0, stick.stock.length - job.saw.trim - sum(lengths) - job.saw.kerf * len(lengths))
    wrong += [] if remnant == stick.remnant else [f"remnant {remnant}, said {stick.remnant}"]
    balanced = sum(lengths) + stick.sawn + stick.remnant == stick.stock.length
    return wrong + ([] if balanced and stick.sawn >= 0 else [f"{stick} doesn't balance"])
