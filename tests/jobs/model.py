"""The workshop as a few dictionaries: what every job should do, without a database."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field

from inventory.core.items import Hand, Item, State
from inventory.core.places import OUTSIDE, Place, PlaceKind

Move = tuple[Item, int, Place, Place]

BINS = tuple(Place(PlaceKind.BIN, code) for code in ("B-1", "B-2", "BENCH"))
HELD = Place(PlaceKind.HOLD, "HOLD")
CRATE = Place(PlaceKind.CRATE, "C1")
OPENING, SUPPLIER, MADE, SCRAP, DIFFERENCE = (
    Place(kind)
    for kind in (
        PlaceKind.OPENING,
        PlaceKind.SUPPLIER,
        PlaceKind.MADE,
        PlaceKind.SCRAP,
        PlaceKind.DIFFERENCE,
    )
)
KINDS = (("RIB", Hand.LEFT), ("RIB", Hand.RIGHT), ("BOLT", Hand.NONE))
NEEDS = {
    "S-1": {("RIB", Hand.LEFT): 2, ("RIB", Hand.RIGHT): 2},
    "S-2": {("BOLT", Hand.NONE): 9},
}
"""What each step takes at most, spares included."""


class RefusedError(Exception):
    """The job must refuse this, and change nothing."""


@dataclass
class Act:
    """One recorded act."""

    moves: list[Move]
    step: tuple[str, str] | None = None
    undoes: int | None = None
    standing: bool = True
    name: str = ""
    counted: tuple[Item, int, bool] | None = None
    """In the crate: what, how many, and whether it was counted again."""


@dataclass
class Model:
    """What the record should hold."""

    stock: Counter[tuple[Place, Item]] = field(default_factory=Counter)
    acts: dict[int, Act] = field(default_factory=dict)

    def record(self, number: int, act: Act) -> None:
        """Do an act, or refuse it whole where a place would go below zero."""
        after = self.stock.copy()
        for item, pieces, origin, goal in act.moves:
            after[origin, item] -= pieces
            after[goal, item] += pieces
            if after[origin, item] < 0 and origin.kind not in OUTSIDE:
                raise RefusedError(f"{origin} below zero")
        self.stock = Counter({key: pieces for key, pieces in after.items() if pieces})
        self.acts[number] = act

    def lies(self, place: Place, item: Item) -> int:
        """Return how many lie there."""
        return self.stock[place, item]

    def take(self, place: Place, item: Item, pieces: int) -> None:
        """Refuse more than lies there."""
        if pieces < 1 or self.lies(place, item) < pieces:
            raise RefusedError(f"{pieces} of {item} from {place}")

    def done(self, step: str) -> bool:
        """Say whether a step is done."""
        states = [act.step[1] for act in self.acts.values() if act.standing and act.step
                  and act.step[0] == step]  # fmt: skip
        return bool(states) and states[-1] in {"done", "built before"}

    def issue(self, item: Item, pieces: int, origin: Place, step: str, *, over: bool) -> Move:
        """Return the movement of an issue, or refuse it as the plan says."""
        if self.done(step):
            raise RefusedError("done already")
        self.take(origin, item, pieces)
        wanted = NEEDS[step].get((item.part, item.hand))
        if wanted is None:
            raise RefusedError("asks for no such part or hand")
        goal = Place(PlaceKind.STEP, step)
        there = sum(self.lies(goal, Item(item.part, item.hand, state=state)) for state in State)
        if there + pieces > wanted and not over:
            raise RefusedError("too many")
        return item, pieces, origin, goal

    def undo(self, target: int) -> Act:
        """Return the act that takes another one back."""
        act = self.acts.get(target)
        if act is None or not act.standing or act.name == "bin add":
            raise RefusedError("nothing to undo")
        self._refuse_recounted(target)
        undoing = {each.undoes: number for number, each in self.acts.items()}
        while target in undoing:  # it counts again: undo what let it
            target = undoing[undoing[target]]
        back = [(item, pieces, goal, origin) for item, pieces, origin, goal in reversed(act.moves)]
        return Act(back, undoes=target, name="undo")

    def count(self, item: Item, pieces: int, how: str) -> Act:
        """Return the act of counting a pile in the crate: first, more of it, or again."""
        before = 0
        for act in self.acts.values():
            if act.standing and act.counted and act.counted[0] == item:
                before = act.counted[1] + (0 if act.counted[2] else before)
                if how == "first":
                    raise RefusedError("counted before")
        more = pieces - (before if how == "again" else 0)
        ends = (SUPPLIER, CRATE) if more > 0 else (CRATE, SUPPLIER)
        moves = [(item, abs(more), *ends)] if more else []
        return Act(moves, counted=(item, pieces, how == "again"))

    def _refuse_recounted(self, target: int) -> None:
        """Refuse to turn a count round that a later recount took the place of."""
        while (before := self.acts[target].undoes) is not None:
            target = before
        mine = self.acts[target].counted
        for number, act in self.acts.items():
            if mine and number > target and act.standing and act.counted:
                item, _, again = act.counted
                if again and item == mine[0]:
                    raise RefusedError("counted again since")

    def undone(self, target: int, *, stands: bool = False) -> None:
        """Let an act count no more, and what it undid count again, and so on backwards."""
        self.acts[target].standing = stands
        before = self.acts[target].undoes
        if before is not None:
            self.undone(before, stands=not stands)
