"""How fast plans are computed: `python -m tests.benchmarks.planning`.

Floor: making an empty answer for each need, which no netting that explains itself can do without.
Goals in seconds stand where a person waits for the answer. The kits are made up by rules of thumb:
most parts are used once, hardware is shared and some of it short, few single parts are missing;
where all is scarce every line draws on 200 shared parts, all of them short.
"""

from __future__ import annotations

import random
import sys
from contextlib import closing, contextmanager
from dataclasses import dataclass, replace
from math import log10
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

from sqlalchemy import text

from inventory.core.items import Item
from inventory.core.planning.filling import Wanted, fill
from inventory.core.planning.largest_set import LargestSet, largest_set
from inventory.core.planning.narrowing import PlanIndex
from inventory.core.planning.plan import Need, Plan, Step
from inventory.core.planning.shortage import NetNeed, net
from inventory.core.planning.workshop import Workshop
from inventory.jobs.kits import begin_kit
from inventory.store.ledger.slips import add_slip
from inventory.store.opening.database import begin_store
from inventory.store.planning.plans import save_plan
from inventory.store.planning.scarce import moment
from inventory.store.planning.short_parts import short_of_step, short_parts
from tests.benchmarks.filled_kit import NOW, slip_of
from tests.benchmarks.measure import Result, Spent, here, main, middle, paired, ratio, together

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sqlalchemy import Connection

    from inventory.store.planning.scarce import Moment
    from inventory.store.planning.short_parts import ShortPart
    from tests.benchmarks.measure import Pair

HARDWARE = 40
"""Shared part numbers of a kit."""
POOL = 200


@dataclass(frozen=True, slots=True)
class MadeUp:
    """A plan and the stock for it."""

    plan: Plan
    workshop: Workshop


def made_up(steps: int, *, pool: bool, seed: int = 1) -> MadeUp:
    """Return a kit of about 15 needs a step, or one where everything is scarce."""
    dice = random.Random(seed)
    needs = [
        need
        for step in range(steps)
        for line in range(dice.randint(3, 27))
        for need in [_need(dice, step, line, pool=pool)]
    ]
    total: dict[str, int] = {}
    for need in needs:
        total[need.part] = total.get(need.part, 0) + need.quantity
    stock = {
        Item(part): left
        for part, asked in total.items()
        for left in [int(asked * (1 - _lacking(dice, part, pool=pool)))]
        if left
    }
    order = tuple(
        Step(code=f"s{step}", after=tuple({f"s{dice.randrange(step)}" for _ in (1, 2)}))
        if step
        else Step(code="s0")
        for step in range(steps)
    )
    return MadeUp(Plan(steps=order, needs=tuple(needs)), Workshop(usable=stock))


def _need(dice: random.Random, step: int, line: int, *, pool: bool) -> Need:
    if not pool and dice.random() < 0.7:
        return Need(step=f"s{step}", part=f"T2-{step}-{line}", quantity=dice.randint(1, 4))
    number = dice.randrange(POOL if pool else HARDWARE)
    return Need(step=f"s{step}", part=f"AN{number}", quantity=dice.randint(1, 20))


def _lacking(dice: random.Random, part: str, *, pool: bool) -> float:
    """Return the share of all that is asked of a part which isn't there."""
    if pool:
        return dice.uniform(0.1, 0.6)
    if part.startswith("AN"):
        return dice.uniform(0.02, 0.4) if dice.random() < 0.3 else 0.0
    return 1.0 if dice.random() < 0.004 else 0.0


def empty_answers(plan: Plan) -> list[NetNeed]:
    """Make the answers without working anything out."""
    return [
        NetNeed(need=need, issued=0, open=need.quantity, pools=(), on_hand=0) for need in plan.needs
    ]


def seconds(what: str, spent: Spent, goal: float, detail: str) -> Result:
    return Result(what=what, figure=spent.cpu, goal=goal, alarm=5 * goal, unit="s", detail=detail)


def growth(what: str, pair: Pair, goal: float) -> Result:
    """Return how many times as long ten times as much takes, with the exponent of growth."""
    detail = f"exponent {log10(pair.ratio):.2f}; {pair.words}"
    return replace(ratio(what, pair, goal, 2 * goal), detail=detail)


def netting(steps: int, rounds: int) -> Iterator[Result]:
    """Measure netting a whole plan, its growth, and one step of it in a session."""
    large, small = made_up(steps, pool=False), made_up(steps // 10, pool=False)
    pair = paired(
        here(lambda: empty_answers(large.plan)),
        here(lambda: net(large.plan, large.workshop)),
        rounds,
    )
    yield ratio(f"net {len(large.plan.needs)} needs / answers alone", pair, 15, 60)
    grown = paired(
        here(lambda: net(small.plan, small.workshop)),
        here(lambda: net(large.plan, large.workshop)),
        rounds,
    )
    yield growth("netting: growth for ten times as many", grown, 15)
    index = PlanIndex(large.plan, large.workshop)
    step = large.plan.steps[steps // 2].code
    (single,) = together([here(lambda: index.net_step(step))], rounds)
    lines = len(index.net_step(step).needs)
    yield seconds("one step's shortages in a session", middle(single), 0.1, f"{lines} lines bear")


def sets(steps: int, rounds: int) -> Iterator[Result]:
    """Measure the largest set of steps, of a kit and where all is scarce."""
    for pool, name, goal in ((False, "kit", 0.5), (True, "all scarce", 5.0)):
        made = made_up(steps, pool=pool)
        netted = net(made.plan, made.workshop)
        found: list[LargestSet] = []

        def search(found: list[LargestSet] = found) -> None:
            found.append(largest_set(netted, made.workshop))  # noqa: B023  at once

        (times,) = together([here(search)], 1 if pool else rounds, 0 if pool else 1)
        last = found[-1]
        sure = "exact" if last.proved else f"of at most {last.at_most}"
        detail = f"{last.worth} {sure}; in order {len(last.in_order)}"
        yield seconds(f"largest set of {steps} steps, {name}", middle(times), goal, detail)


def substitution(lines: int, rounds: int) -> Iterator[Result]:
    """Measure dealing out stand-ins, exact for every beginning of the build order."""
    dice = random.Random(2)
    parts = [f"AN{number}" for number in range(lines // 10)]
    wanted = [
        Wanted(tuple(dice.sample(parts, dice.randint(1, 4))), dice.randint(1, 6))
        for _ in range(lines)
    ]
    supply = {part: dice.randint(10, 50) for part in parts}
    (times,) = together([here(lambda: fill(supply, wanted))], rounds)
    filled = sum(share.quantity for got in fill(supply, wanted) for share in got)
    detail = f"{filled} of {sum(want.quantity for want in wanted)} pieces"
    yield seconds(f"stand-ins dealt out to {lines} lines", middle(times), 0.5, detail)


def in_the_store(lines: int, rounds: int) -> Iterator[Result]:
    """Measure who is short of a large plan in the store against adding up its quantities there."""
    with stored(lines) as large, stored(lines // 10) as small:
        pair = paired(here(large.added_up), here(large.short), rounds)
        yield ratio(f"who is short of {lines:,} lines in the store / add them up", pair, 12, 40)
        grown = paired(here(small.short), here(large.short), rounds)
        yield growth("who is short in the store: ten times as many", grown, 11)
        at = large.at()
        step = at.plan.steps[len(at.plan.steps) // 2].code
        (single,) = together([here(lambda: short_of_step(large.db, at, step))], rounds)
        detail = f"{len(short_of_step(large.db, at, step))} parts short"
        yield seconds("one step's shortages, large plan", middle(single), 0.01, detail)


@dataclass(frozen=True, slots=True)
class Stored:
    """A plan in a store, and what lies there for it."""

    db: Connection
    kit: int
    workshop: Workshop

    def at(self) -> Moment:
        """Return the plan and the workshop as they are read before any question."""
        found = moment(self.db, self.kit, self.workshop)
        if found is None:
            raise RuntimeError("the plan wasn't saved")
        return found

    def added_up(self) -> int:
        """Add up all quantities: the floor."""
        return int(self.db.execute(_ADDED_UP).scalar_one())

    def short(self) -> list[ShortPart]:
        """Work out which part is short, of how many, and in which step first."""
        return short_parts(self.db, self.at())


@contextmanager
def stored(lines: int) -> Iterator[Stored]:
    """Keep a plan of so many lines in a store: 200 to a step, 50 of a part."""
    parts, dice = lines // 50, random.Random(3)
    most = 5 * lines // parts
    with TemporaryDirectory() as folder, closing(begin_store(f"{folder}/large.store")) as store:
        kit = begin_kit(store, "Large", "LA", NOW).id
        with store.writing(kit) as db:
            number = add_slip(db, kit, "plan read", slip_of("plan")).id
            save_plan(db, kit, number, _large_plan(lines, dice))  # and lets go of it
        usable = {Item(f"F-{number:05}"): dice.randint(0, most) for number in range(parts)}
        with store.reading() as db:
            yield Stored(db, kit, Workshop(usable=usable))


def _large_plan(lines: int, dice: random.Random) -> Plan:
    steps, parts = lines // 200, lines // 50
    needs = tuple(
        Need(
            step=f"s{dice.randrange(steps)}",
            part=f"F-{dice.randrange(parts):05}",
            quantity=dice.randint(1, 4),
        )
        for _ in range(lines)
    )
    return Plan(steps=tuple(Step(code=f"s{number}") for number in range(steps)), needs=needs)


_ADDED_UP = text('SELECT sum(quantity) FROM need WHERE kit = 1 AND "plan" = 1')


def measured(quick: bool) -> Iterator[Result]:  # noqa: FBT001  as measure.main calls it
    """Yield every figure."""
    rounds = 3 if quick else 5
    # The store first: what the others leave alive, Python's collector would walk meanwhile.
    yield from in_the_store(100_000 if quick else 1_000_000, rounds)
    yield from netting(500 if quick else 5000, rounds)
    yield from substitution(3000, rounds)
    yield from sets(500 if quick else 5000, rounds)


if __name__ == "__main__":
    sys.exit(main(__doc__, measured))
