"""What was scanned before, and what the next scan will therefore do."""

from __future__ import annotations

from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from inventory.core.counted import counted
from inventory.core.frozen import frozen
from inventory.core.items import Hand, State
from inventory.core.places import Place, PlaceKind
from inventory.jobs.bench.finding_items import Asked
from inventory.jobs.bench.issuing import Issue

if TYPE_CHECKING:
    from collections.abc import Mapping


@frozen(kw_only=True)
class ScanState:
    """Bin, step, part and quantity that are set; a value, so that it can be kept and sent."""

    bin: Place | None = None
    step: str = ""
    """The step that all parts go to, until another one is scanned or DONE."""
    part: Asked | None = None
    pieces: int = 0
    """Quantity for the next part; 0 where nothing was said: one piece."""
    question: Issue | None = None
    """An issue that waits for YES or for a hand; the very next scan answers it or drops it."""
    last: str = ""
    """The line before, where a second one at once may be the trigger pulled twice."""
    last_at: float | None = None
    """Seconds by the scanner's own clock."""

    @property
    def words(self) -> str:
        """What is set, and what is to be scanned next."""
        told = [f"step {self.step}"] if self.step else []
        told += (
            [f"bin {self.bin.code}" if self.bin.kind is PlaceKind.BIN else str(self.bin)]
            if (self.bin)
            else []
        )
        told += [self.part.part] if self.part else []
        told += [counted(self.pieces, "piece")] if self.pieces else []
        if self.part:
            next_ = "step"
        elif self.bin or self.step:
            next_ = "part"
        else:
            next_ = "bin or step"
        return f"{', '.join(told)} - next: {next_}" if told else f"next: {next_}"


def kept(state: ScanState) -> dict[str, Any]:
    """Return a state as plain values, so that it can be stored as JSON."""
    return asdict(state)


def state_from(values: Mapping[str, Any]) -> ScanState:
    """Return the state that was kept."""
    question = values["question"]
    return ScanState(
        bin=_place(values["bin"]),
        step=values["step"],
        part=_asked(values["part"]),
        pieces=values["pieces"],
        question=None if question is None else _issue(question),
        last=values["last"],
        last_at=values["last_at"],
    )


def _place(values: Mapping[str, Any] | None) -> Place | None:
    return None if values is None else Place(PlaceKind(values["kind"]), values["code"])


def _asked(values: Mapping[str, Any] | None) -> Asked | None:
    if values is None:
        return None
    hand, state = values["hand"], values["state"]
    return Asked(
        part=values["part"],
        hand=None if hand is None else Hand(hand),
        lot=values["lot"],
        length=values["length"],
        state=None if state is None else State(state),
    )


def _issue(values: Mapping[str, Any]) -> Issue:
    asked = _asked(values["asked"])
    if asked is None:
        raise ValueError("a question is always about a part")
    return Issue(
        asked=asked,
        pieces=values["pieces"],
        step=values["step"],
        origin=_place(values["origin"]),
        by_piece=True,
        over=values["over"],
        expired=values["expired"],
    )
