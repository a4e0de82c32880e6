"""A kit filled with many movements, through the store's own rows and triggers."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING

from inventory.core.items import Item
from inventory.core.places import Place, PlaceKind
from inventory.core.planning.plan import Need, Plan, Step
from inventory.core.record.ledger import Movement
from inventory.core.record.slips import Slip
from inventory.jobs.acts import Bench
from inventory.jobs.kits import begin_kit
from inventory.store.ledger.movements import append_movements
from inventory.store.ledger.slips import add_slip
from inventory.store.planning.plans import save_plan

if TYPE_CHECKING:
    from collections.abc import Iterator

    from inventory.store.opening.database import Store

NOW = datetime(2026, 11, 25, 10, 0, tzinfo=UTC)
PLENTY = 10**9
"""So much lies in each bin that no scan of a benchmark is ever refused."""


@dataclass(frozen=True, slots=True)
class Size:
    """How large a kit is."""

    parts: int
    bins: int
    steps: int
    needs: int
    movements: int
    to_a_slip: int = 1000


WORKSHOP = Size(parts=2000, bins=200, steps=300, needs=6000, movements=10_000)


def part(number: int) -> str:
    """Return an invented part number."""
    return f"T2-FL-{number:05}"


def home(number: int, size: Size) -> Place:
    """Return the bin in which a part lies."""
    return Place(PlaceKind.BIN, f"B-{number % size.bins:03}")


def step(number: int, size: Size) -> str:
    """Return a step's code."""
    return f"{10 + number % size.steps:04}"


def slip_of(key: str) -> Slip:
    """Return a slip of the benchmark's one day."""
    return Slip(key=key, recorded_at=NOW, happened_on=date(2026, 11, 25), person="Ada")


def fill(store: Store, name: str, code: str, size: Size) -> Bench:
    """Begin a kit with a plan, opening stock and that many movements back and forth."""
    kit = begin_kit(store, name, code, NOW)
    bench = Bench(store, kit)
    with store.writing(kit.id) as db:
        save_plan(db, kit.id, add_slip(db, kit.id, "plan", slip_of("plan")).id, plan_of(size))
    opening = [
        Movement(Item(part(n)), PLENTY, Place(PlaceKind.OPENING), home(n, size))
        for n in range(size.parts)
    ]
    add_movements(bench, "put", opening, size.to_a_slip)
    add_movements(bench, "move", list(back_and_forth(size)), size.to_a_slip)
    return bench


def plan_of(size: Size) -> Plan:
    """Return a plan whose needs name every part in turn, and never too few pieces."""
    return Plan(
        source="plan.xlsx",
        sha256="c" * 64,
        steps=tuple(Step(code=step(n, size), title=f"Step {n}") for n in range(size.steps)),
        needs=tuple(
            Need(step=step(n, size), part=part(n % size.parts), quantity=PLENTY)
            for n in range(size.needs)
        ),
    )


def back_and_forth(size: Size) -> Iterator[Movement]:
    """Return movements between a part's bin and the next bin, as many as are wanted."""
    for count in range(size.movements - size.parts):
        number = count * 7919 % size.parts
        here, beside = home(number, size), home(number + 1, size)
        turn = count // size.parts % 2
        yield Movement(Item(part(number)), 1, *((beside, here) if turn else (here, beside)))


def add_movements(bench: Bench, act: str, moves: list[Movement], to_a_slip: int) -> None:
    """Append movements, so many to a slip."""
    for start in range(0, len(moves), to_a_slip):
        with bench.store.writing(bench.kit.id) as db:
            recorded = add_slip(db, bench.kit.id, act, slip_of(f"{act} {start}"))
            append_movements(db, bench.kit.id, recorded, moves[start : start + to_a_slip])
