"""The list against the plan: what the steps need and nobody has sent or promised."""

from __future__ import annotations

from collections import Counter, defaultdict
from typing import TYPE_CHECKING

from inventory.core.items import Hand, Measure
from inventory.core.lists.packing import CountRule
from inventory.core.parts.hands import hand_in_words
from inventory.core.planning.plan import NeedKind
from inventory.core.receiving.findings import Comparison, Finding, FindingKind, worst_first

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from inventory.core.lists.packing import PackingLine
    from inventory.core.planning.plan import Need, Plan

_COUNTED = frozenset({NeedKind.PART, NeedKind.HARDWARE})


def list_against_plan(lines: Sequence[PackingLine], plan: Plan) -> list[Finding]:
    """Return the parts of which the list holds less than the whole plan needs.

    What is shipped counts, and what is to follow. Left never fills right. Cut pieces, tools and
    consumables are not compared here: bars, returns and volumes have their own arithmetic. Spare
    allowance is left out. A short list isn't the supplier's fault by itself: the builder may have
    left a sub-kit out of the order.
    """
    listed = _listed(lines)
    needed, needs = _needed(plan, listed)
    found: list[Finding] = []
    for part, wanted in needed.items():
        for hand, missing, have in _short_hands(wanted, listed.get(part, Counter())):
            found.append(_finding(needs[part], hand, missing, have))
    return worst_first(found)


def _listed(lines: Iterable[PackingLine]) -> dict[str, Counter[Hand]]:
    listed: defaultdict[str, Counter[Hand]] = defaultdict(Counter)
    for line in lines:
        if line.measure is Measure.PIECES and line.count_rule is not CountRule.REFERENCE:
            listed[line.part][line.hand] += line.shipped + line.back_ordered
    return dict(listed)


def _needed(
    plan: Plan, listed: Mapping[str, Counter[Hand]]
) -> tuple[dict[str, Counter[Hand]], dict[str, list[Need]]]:
    made = {step.makes for step in plan.steps if step.makes}
    needed: defaultdict[str, Counter[Hand]] = defaultdict(Counter)
    needs: defaultdict[str, list[Need]] = defaultdict(list)
    for need in _one_of_each(plan.needs, listed):
        counted = need.kind in _COUNTED and need.measure is Measure.PIECES
        if counted and need.quantity and need.part not in made:
            needed[need.part][need.hand] += need.quantity
            needs[need.part].append(need)
    return dict(needed), dict(needs)


def _one_of_each(needs: Iterable[Need], listed: Mapping[str, Counter[Hand]]) -> Iterator[Need]:
    """Of needs that stand for each other, give the one the list holds, else the first."""
    groups: defaultdict[tuple[str, str], list[Need]] = defaultdict(list)
    for need in needs:
        if need.one_of:
            groups[need.step, need.one_of].append(need)
        else:
            yield need
    for group in groups.values():
        yield next((need for need in group if need.part in listed), group[0])


def _short_hands(wanted: Counter[Hand], listed: Counter[Hand]) -> Iterator[tuple[Hand, int, int]]:
    """Give hand, missing and listed: pieces of the hand itself first, then those for either."""
    either = listed[Hand.EITHER] - wanted[Hand.EITHER]
    own = {hand: wanted[hand] - listed[hand] for hand in (Hand.LEFT, Hand.RIGHT, Hand.NONE)}
    lacking = -either - max(0, -own[Hand.NONE])
    if lacking > 0:
        yield Hand.EITHER, lacking, listed[Hand.EITHER]
    spare = max(0, either)
    for hand, missing in own.items():
        from_either = min(spare, max(0, missing))
        spare -= from_either
        if missing > from_either:
            yield hand, missing - from_either, listed[hand]


def _finding(needs: list[Need], hand: Hand, missing: int, have: int) -> Finding:
    steps = ", ".join(dict.fromkeys(need.step for need in needs if need.hand is hand))
    first = next((need for need in needs if need.hand is hand), needs[0])
    side = f" {hand_in_words(hand)}" if hand in {Hand.LEFT, Hand.RIGHT} else ""
    return Finding(
        kind=FindingKind.SHORT,
        comparison=Comparison.LIST_PLAN,
        part=first.part,
        printed=first.printed or first.part,
        description=first.description,
        hand=hand,
        listed=have,
        pieces=missing,
        words=f"{have} listed{side}, {missing} more needed by steps {steps}",
    )
