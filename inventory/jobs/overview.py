"""How far a kit is, in a few numbers."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.places import PlaceKind
from inventory.jobs.planning.workshop_today import DONE
from inventory.store.ledger.events import crate_states, step_states
from inventory.store.ledger.names import places_of
from inventory.store.ledger.slips import newest_slip
from inventory.store.planning.plans import step_codes
from inventory.store.receiving.packing_lists import current_lines, saved_lists

if TYPE_CHECKING:
    from inventory.jobs.acts import Bench
    from inventory.store.kits import Kit


@frozen(kw_only=True)
class Overview:
    """A kit in numbers."""

    kit: Kit
    lists: int
    lines: int
    crates: int
    crates_closed: int
    bins: int
    steps: int
    steps_done: int
    acts: int


def overview(bench: Bench) -> Overview:
    """Return how far the kit is."""
    kit = bench.kit
    with bench.store.reading() as db:
        lines = current_lines(db, kit.id)
        crates = {line.crate for line in lines if line.crate}
        closed = {crate for crate, event in crate_states(db, kit.id).items() if event == "closed"}
        steps = step_codes(db, kit.id)
        states = step_states(db, kit.id)
        return Overview(
            kit=kit,
            lists=len(saved_lists(db, kit.id)),
            lines=len(lines),
            crates=len(crates),
            crates_closed=len(crates & closed),
            bins=len(places_of(db, kit.id, PlaceKind.BIN)),
            steps=len(steps),
            steps_done=sum(states.get(step) in DONE for step in steps),
            acts=newest_slip(db, kit.id),
        )
