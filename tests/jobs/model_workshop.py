"""A workshop whose acts are done in the model and by the jobs, and compared after each."""

from __future__ import annotations

import tempfile
import uuid
from contextlib import closing
from itertools import pairwise
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from hypothesis import strategies as st
from hypothesis.stateful import (
    RuleBasedStateMachine,
    initialize,
    invariant,
    rule,
)

from inventory.core.errors import AlreadyDoneError, InventoryError, SlipConflictError
from inventory.core.items import Hand, Item, State
from inventory.core.places import Place, PlaceKind
from inventory.core.planning.plan import Need, Plan, Step
from inventory.core.receiving.counts import Count
from inventory.jobs.acts import Bench
from inventory.jobs.bench import issuing, putting_away, steps, undoing
from inventory.jobs.bench.finding_items import Asked, Taking
from inventory.jobs.bench.putting_away import Putting, add_bins
from inventory.jobs.kits import begin_kit
from inventory.jobs.planning.planning import take_in_plan
from inventory.jobs.receiving import receiving
from inventory.jobs.record.exporting import export
from inventory.jobs.record.rebuilding import rebuild
from inventory.jobs.record.verifying import verify
from inventory.store.ledger.slips import all_slips, undone_slips
from inventory.store.ledger.stock import lying
from inventory.store.opening.database import open_store
from inventory.store.receiving.counts import RecordedCount
from tests.conftest import NOW, slip
from tests.jobs.model import (
    BINS,
    CRATE,
    DIFFERENCE,
    HELD,
    KINDS,
    MADE,
    NEEDS,
    OPENING,
    SCRAP,
    Act,
    Model,
    Move,
    RefusedError,
)
from tests.jobs.recorded import as_csv

if TYPE_CHECKING:
    from collections.abc import Callable

    from inventory.core.record.slips import Slip


PLAN = Plan(
    source="p",
    sha256="1" * 64,
    steps=(Step(code="S-1", makes="FRAME"), Step(code="S-2", after=("S-1",))),
    needs=(
        Need(step="S-1", part="RIB", hand=Hand.LEFT, quantity=2),
        Need(step="S-1", part="RIB", hand=Hand.RIGHT, quantity=2),
        Need(step="S-2", part="BOLT", quantity=8, spare=1),
    ),
)

kinds = st.sampled_from(KINDS)

bins = st.sampled_from(BINS)

codes = st.sampled_from(sorted(NEEDS))

few = st.integers(1, 4)


def asked(item: Item) -> Asked:
    return Asked(part=item.part, hand=item.hand, lot=item.lot, length=item.length, state=item.state)


class Workshop(RuleBasedStateMachine):
    """A store and its model, side by side."""

    begin: Callable[[], str]
    end: Callable[[str], None]

    @initialize()
    def open(self) -> None:
        self.address = type(self).begin()
        self.store = open_store(self.address)
        self.bench = Bench(self.store, begin_kit(self.store, "Tarn T2", "T2", NOW))
        self.model = Model()
        self.used: list[Slip] = []
        self._do(Act([], name="plan"), lambda s: take_in_plan(self.bench, PLAN, s))
        names = [place.code for place in BINS]
        self._do(Act([], name="bin add"), lambda s: add_bins(self.bench, names, "", s))

    def teardown(self) -> None:
        if hasattr(self, "store"):
            assert verify(self.store).problems == ()
            self.store.close()
            type(self).end(self.address)

    def _do(self, act: Act | Callable[[], Act], job: Callable[[Slip], object]) -> None:
        """Do an act in the store and in the model: both accept it, or both refuse it."""
        made = slip(uuid.uuid4().hex, note="why")
        number = len(self.model.acts) + 1
        try:
            acted = act() if callable(act) else act
            self.model.record(number, acted)
        except RefusedError:
            with pytest.raises(InventoryError):
                job(made)
            return
        job(made)
        self.used.append(made)
        if acted.undoes is not None:
            self.model.undone(acted.undoes)

    @rule(kind=kinds, pieces=few, bin_=bins, worked=st.booleans())
    def put_in(self, kind: tuple[str, Hand], pieces: int, bin_: Place, *, worked: bool) -> None:
        item = Item(*kind, state=State.WORKED if worked else State.NEW)
        putting = Putting(Taking(asked(item), pieces, OPENING), bin_.code)
        act = Act([(item, pieces, OPENING, bin_)])
        self._do(act, lambda s: putting_away.put(self.bench, [putting], s))

    @rule(kind=kinds, pieces=few, way=st.permutations(BINS))
    def put_on_and_on(self, kind: tuple[str, Hand], pieces: int, way: list[Place]) -> None:
        item = Item(*kind)
        pairs = list(pairwise(way))
        puttings = [Putting(Taking(asked(item), pieces, a), b.code) for a, b in pairs]
        act = Act([(item, pieces, a, b) for a, b in pairs])
        self._do(act, lambda s: putting_away.put(self.bench, puttings, s))

    @rule(kind=kinds, pieces=st.integers(0, 4), how=st.sampled_from(["first", "more", "again"]))
    def count(self, kind: tuple[str, Hand], pieces: int, how: str) -> None:
        item = Item(*kind)
        counted = Count(part=item.part, hand=item.hand, crate=CRATE.code, pieces_good=pieces)
        recorded = RecordedCount(0, 0, counted, item.part, recount=how == "again")
        self._do(
            lambda: self.model.count(item, pieces, how),
            lambda s: receiving.count(self.bench, [recorded], s, more=how == "more"),
        )

    @rule(kind=kinds, pieces=few, bin_=bins)
    def put_from_crate(self, kind: tuple[str, Hand], pieces: int, bin_: Place) -> None:
        item = Item(*kind)
        putting = Putting(Taking(asked(item), pieces, CRATE), bin_.code)
        act = Act([(item, pieces, CRATE, bin_)])
        self._do(act, lambda s: putting_away.put(self.bench, [putting], s))

    @rule(kind=kinds, pieces=few, bin_=bins)
    def hold(self, kind: tuple[str, Hand], pieces: int, bin_: Place) -> None:
        item = Item(*kind)
        taking = Taking(asked(item), pieces, bin_)
        act = Act([(item, pieces, bin_, HELD)])
        self._do(act, lambda s: putting_away.hold(self.bench, taking, s))

    @rule(kind=kinds, pieces=few, bin_=bins)
    def release(self, kind: tuple[str, Hand], pieces: int, bin_: Place) -> None:
        item = Item(*kind)
        putting = Putting(Taking(asked(item), pieces, HELD), bin_.code)
        act = Act([(item, pieces, HELD, bin_)])
        self._do(act, lambda s: putting_away.release(self.bench, putting, s))

    @rule(kind=kinds, pieces=few, origin=st.sampled_from([*BINS, HELD]), step=codes,
          over=st.booleans())  # fmt: skip
    def issue(
        self, kind: tuple[str, Hand], pieces: int, origin: Place, step: str, *, over: bool
    ) -> None:
        item = Item(*kind)
        wanted = issuing.Issue(
            asked=asked(item), pieces=pieces, step=step.lower(), origin=origin, over=over
        )

        def act() -> Act:
            if origin == HELD:
                raise RefusedError("on hold")
            return Act([self.model.issue(item, pieces, origin, step, over=over)])

        self._do(act, lambda s: issuing.issue(self.bench, wanted, s))

    @rule(kind=kinds, pieces=few, step=codes, bin_=bins, worked=st.booleans())
    def take_back(
        self, kind: tuple[str, Hand], pieces: int, step: str, bin_: Place, *, worked: bool
    ) -> None:
        item = Item(*kind)
        origin = Place(PlaceKind.STEP, step)
        taking = Taking(asked(item), pieces, origin)
        moves: list[Move] = [(item, pieces, origin, bin_)]
        if worked:
            moves = [
                (item, pieces, origin, MADE),
                (Item(*kind, state=State.WORKED), pieces, MADE, bin_),
            ]
        self._do(
            Act(moves),
            lambda s: issuing.take_back(self.bench, taking, bin_.code, s, worked=worked),
        )

    @rule(kind=kinds, pieces=few, bin_=bins)
    def scrap(self, kind: tuple[str, Hand], pieces: int, bin_: Place) -> None:
        item = Item(*kind)
        taking = Taking(asked(item), pieces, bin_)
        act = Act([(item, pieces, bin_, SCRAP)])
        self._do(act, lambda s: issuing.scrap(self.bench, taking, s))

    @rule(kind=kinds, pieces=st.integers(0, 6), bin_=bins)
    def recount(self, kind: tuple[str, Hand], pieces: int, bin_: Place) -> None:
        item = Item(*kind)
        more = pieces - self.model.lies(bin_, item)
        moves = [(item, more, DIFFERENCE, bin_)] if more > 0 else [(item, -more, bin_, DIFFERENCE)]
        counted = [(asked(item), pieces)]
        self._do(
            Act(moves if more else []),
            lambda s: putting_away.recount(self.bench, bin_.code, counted, s),
        )

    @rule(code=codes, short=st.booleans())
    def step_done(self, code: str, *, short: bool) -> None:
        use = steps.use_of(self.bench, code)

        def act() -> Act:
            if self.model.done(code) or (use.missing and not short):
                raise RefusedError("done already, or short")
            goal = Place(PlaceKind.STEP, code)
            moves: list[Move] = [
                (each.item, each.quantity, each.place, goal) for each in use.fetches
            ]
            if code == "S-1":
                moves.append((Item("FRAME"), 1, MADE, BINS[2]))
            return Act(moves, (code, "done"))

        self._do(act, lambda s: steps.done(self.bench, code, s, anyway=True, short=short))

    @rule(code=codes)
    def step_reopened(self, code: str) -> None:
        def act() -> Act:
            if not self.model.done(code):
                raise RefusedError("isn't done")
            return Act([], (code, "reopened"))

        self._do(act, lambda s: steps.reopen(self.bench, code, s))

    @rule(code=codes)
    def built_before(self, code: str) -> None:
        def act() -> Act:
            if self.model.done(code):
                raise RefusedError("done already")
            return Act([], (code, "built before"))

        self._do(act, lambda s: steps.built_before(self.bench, [code], s))

    @rule(back=st.integers(0, 6))
    def undo(self, back: int) -> None:
        number = max(2, len(self.model.acts) - back)  # the plan stays
        self._do(
            lambda: self.model.undo(number),
            lambda s: undoing.undo(self.bench, s, number),
        )

    @rule(back=st.integers(1, 5))
    def the_same_slip_again(self, back: int) -> None:
        again = self.used[-min(back, len(self.used))]
        with pytest.raises((AlreadyDoneError, SlipConflictError)):
            issuing.scrap(self.bench, Taking(Asked(part="RIB"), 1, BINS[0]), again)

    @rule()
    def close_and_open(self) -> None:
        self.store.close()
        self.store = open_store(self.address)
        self.bench = Bench(self.store, self.bench.kit)

    @rule()
    def leave_and_come_back(self) -> None:
        """Export, and rebuild elsewhere: the same workshop."""
        with tempfile.TemporaryDirectory() as place:
            export(self.store, Path(place) / "record", as_csv)
            with closing(rebuild(Path(place) / "record", f"{place}/new.kitwright").store) as new:
                self._agrees(Bench(new, self.bench.kit))

    @invariant()
    def agrees(self) -> None:
        if hasattr(self, "bench"):
            self._agrees(self.bench)

    def _agrees(self, bench: Bench) -> None:
        with bench.store.reading() as db:
            there = {(lies.place, lies.item): lies.quantity for lies in lying(db, 1)}
            standing = {each.id for each in all_slips(db, 1)} - undone_slips(db, 1)
        assert there == dict(self.model.stock)
        assert standing == {number for number, act in self.model.acts.items() if act.standing}
