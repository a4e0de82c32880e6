"""Steps: started, done with all they use, done before the record began, reopened."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError, NotEnoughError
from inventory.core.frozen import frozen
from inventory.core.items import Item
from inventory.core.parts.hands import hand_in_words
from inventory.core.places import Place, PlaceKind
from inventory.core.planning.picking import Fetch, fetches, missing_from
from inventory.core.record.ledger import Movement
from inventory.jobs.acts import acting
from inventory.jobs.again import tried_again
from inventory.jobs.cutting.recording import cut_movements
from inventory.jobs.cutting.saw import saw_within
from inventory.jobs.cutting.sticks import SAW, Lacking, sticks_for
from inventory.jobs.planning.planning import known_step
from inventory.jobs.planning.workshop_today import DONE, today_within
from inventory.store.ledger.events import add_step_event, step_states
from inventory.store.ledger.history import items_out_of
from inventory.store.planning.plans import step_codes

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from inventory.core.planning.plan import Step
    from inventory.core.planning.shortage import NetNeed
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench
    from inventory.jobs.cutting.sticks import StickFromBin
    from inventory.jobs.planning.workshop_today import Today
    from inventory.store.kits import Kit
    from inventory.store.opening.database import Connection

BENCH = Place(PlaceKind.BIN, "BENCH")
"""Where a finished sub-assembly lies until somebody puts it elsewhere."""


@frozen
class Use:
    """What a step would use up if it were done now."""

    step: Step
    fetches: tuple[Fetch, ...]
    cuts: tuple[StickFromBin, ...]
    """Sticks that its pieces are cut from."""
    missing: tuple[tuple[NetNeed, int], ...]
    """Needs, and how much of each doesn't lie in any bin."""


def use_of(bench: Bench, code: str) -> Use:
    """Return what marking a step as done would record, so that it can be shown before."""
    with bench.store.reading() as db:
        now = today_within(db, bench.kit)
        return _use(db, bench.kit, now, now.step(code))


def _use(db: Connection, kit: Kit, now: Today, step: Step) -> Use:
    needs = now.netting.of_step(step.code)
    taken = fetches(needs, now.for_step(step.code), now.last_use)
    short = missing_from(needs, taken)
    to_cut = [Lacking(net, pieces) for net, pieces in short]
    from_saw = items_out_of(db, kit.id, SAW)
    cuts = [*sticks_for(now, step.code, to_cut, from_saw, saw_within(db))]
    cut = Counter((each.item.part, piece.length) for each in cuts for piece in each.stick.pieces)
    missing: list[tuple[NetNeed, int]] = []
    for net, lacking in short:
        sawn = min(lacking, cut[net.need.part, net.need.length])
        cut[net.need.part, net.need.length] -= sawn
        if lacking > sawn:
            missing.append((net, lacking - sawn))
    return Use(step, tuple(taken), tuple(cuts), tuple(missing))


def refuse_unknown(bench: Bench, codes: Iterable[str]) -> None:
    """Refuse a code that names no step, before anything is done with the others."""
    with bench.store.reading() as db:
        known = step_codes(db, bench.kit.id)
    for code in codes:
        known_step(known, code)


@tried_again
def start(bench: Bench, code: str, slip: Slip, *, anyway: bool = False) -> Step:
    """Record that work on a step began; steps before it should be done."""
    with acting(bench, "step start", slip) as act:
        now = today_within(act.db, bench.kit)
        step = now.step(code)
        if step.code in now.workshop.done:
            raise InventoryError(
                f"step {step.code} is done already",
                remedy=f"Reopen it: kitwright step reopen {step.code}",
            )
        if step_states(act.db, bench.kit.id).get(step.code) == "started":
            raise InventoryError(f"step {step.code} is started already")
        _refuse_out_of_order(now, [step], anyway=anyway)
        add_step_event(act.db, bench.kit.id, act.recorded.id, step.code, "started")
        return step


@tried_again
def done(bench: Bench, code: str, slip: Slip, *, anyway: bool = False, short: bool = False) -> Use:
    """Record a step as done and, in the same act, as issued all that wasn't issued yet.

    `short` records only what lies in the bins and leaves the rest unrecorded.
    """
    with acting(bench, "step done", slip) as act:
        now = today_within(act.db, bench.kit)
        step = now.step(code)
        if step.code in now.workshop.done:
            raise InventoryError(f"step {step.code} is done already")
        _refuse_out_of_order(now, [step], anyway=anyway)
        use = _use(act.db, bench.kit, now, step)
        if use.missing and not short:
            raise NotEnoughError(
                f"step {step.code} can't be recorded as done: {_missing_words(use.missing)}",
                where=f"step {step.code}",
                remedy="Put away or count what was used, or say --even-if-short: then only what "
                "lies in the bins is recorded as used.",
            )
        destination = Place(PlaceKind.STEP, step.code)
        act.move([Movement(f.item, f.quantity, f.place, destination) for f in use.fetches])
        own = saw_within(act.db)
        act.move([move for cut in use.cuts for move in cut_movements(cut, destination, own)])
        if step.makes:
            made = Item(step.makes, step.makes_hand)
            act.move([Movement(made, 1, Place(PlaceKind.MADE), BENCH)])
        add_step_event(act.db, bench.kit.id, act.recorded.id, step.code, "done")
        return use


def _missing_words(missing: Sequence[tuple[NetNeed, int]]) -> str:
    return "; ".join(
        f"{open_} of {net.need.part} {hand_in_words(net.need.hand)} lie in no bin"
        for net, open_ in missing
    )


@tried_again
def built_before(bench: Bench, codes: Sequence[str], slip: Slip) -> list[str]:
    """Mark steps that were finished before the record began; they use nothing up."""
    with acting(bench, "step done before the record", slip) as act:
        now = today_within(act.db, bench.kit)
        states = step_states(act.db, bench.kit.id)
        steps = [now.step(code) for code in codes]
        for step in steps:
            if states.get(step.code) in DONE:
                raise InventoryError(f"step {step.code} is done already")
            add_step_event(act.db, bench.kit.id, act.recorded.id, step.code, "built before")
        return [step.code for step in steps]


@tried_again
def reopen(bench: Bench, code: str, slip: Slip) -> Step:
    """Open a step again; what was issued to it stays there until it is taken back."""
    with acting(bench, "step reopen", slip) as act:
        now = today_within(act.db, bench.kit)
        step = now.step(code)
        if step.code not in now.workshop.done:
            raise InventoryError(f"step {step.code} isn't done")
        add_step_event(act.db, bench.kit.id, act.recorded.id, step.code, "reopened")
        return step


def _refuse_out_of_order(now: Today, steps: Sequence[Step], *, anyway: bool) -> None:
    for step in steps:
        waits = [code for code in step.after if code not in now.workshop.done]
        if waits and not anyway:
            raise InventoryError(
                f"step {step.code} comes after {', '.join(waits)}, not done yet",
                where=f"step {step.code}",
                remedy="Do those first, or say --anyway if the plans allow it.",
            )
