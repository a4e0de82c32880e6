"""The plan: steps, what comes before them, and what they use up."""

from __future__ import annotations

from dataclasses import field
from enum import StrEnum
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.items import Hand, Measure

if TYPE_CHECKING:
    from collections.abc import Sequence

    from inventory.core.errors import Problem


class NeedKind(StrEnum):
    """How a step uses what it needs."""

    PART = "part"
    HARDWARE = "hardware"
    CUT = "cut"
    """Pieces of a length, cut from stock of that part number."""
    CONSUMABLE = "consumable"
    TOOL = "tool"
    """Comes back when the step is done."""


@frozen(kw_only=True)
class Need:
    """What one step uses of one part."""

    step: str
    part: str
    printed: str = ""
    description: str = ""
    hand: Hand = Hand.NONE
    quantity: int
    """Pieces, or the smallest unit of the measure; 0 only for an as-required need."""
    spare: int = 0
    """Allowance on top of the quantity; shown apart, never hides a shortage."""
    measure: Measure = Measure.PIECES
    kind: NeedKind = NeedKind.PART
    length: int = 0
    """Nanometres of each piece to cut; 0 unless the kind is CUT."""
    one_of: str = ""
    """Needs of one step that share this word are alternates: one of them suffices."""
    as_required: bool = False
    sheet: str = ""
    """Drawing sheet or manual page."""
    find_number: str = ""
    revision: str = ""
    """Of the part, as the plans ask for it; empty where they don't say."""
    prepared: str = ""
    """Preparation the step asks for (the builder's own word, for instance primed)."""
    row: int = 0
    where: str = field(default="", compare=False)
    """Sheet and cell of the file, while it is read."""


@frozen(kw_only=True)
class Step:
    """One unit of building work."""

    code: str
    title: str = ""
    section: str = ""
    sub_assembly: str = ""
    after: tuple[str, ...] = ()
    """Codes of the steps that must be done first."""
    makes: str = ""
    """Part key of the sub-assembly that this step completes; later steps may need it."""
    makes_hand: Hand = Hand.NONE
    days: int = 0
    """How long the step takes, for forecasts; 0 where nobody said."""
    row: int = 0
    where: str = field(default="", compare=False)
    """Sheet and cell of the file, while it is read."""


@frozen(kw_only=True)
class PartSize:
    """What the plans say a part measures, to tell an unmarked one by; 0 where they don't."""

    part: str
    hand: Hand = Hand.NONE
    thickness: int = 0
    """Nanometres, as are width and length."""
    width: int = 0
    length: int = 0
    holes: int | None = None
    """None where the plans don't say; 0 is a part without holes."""


@frozen(kw_only=True)
class Plan:
    """All steps in the order of the sheet, and all needs."""

    source: str = ""
    sha256: str = ""
    steps: tuple[Step, ...] = ()
    needs: tuple[Need, ...] = ()
    sizes: tuple[PartSize, ...] = ()
    notes: tuple[str, ...] = ()
    """What of the file was left out, in words: columns and sheets without meaning for a plan."""
    problems: tuple[Problem, ...] = ()


def steps_in_order(steps: Sequence[Step]) -> list[Step]:
    """Return each step after all that must come before it, else in the order given.

    Raises `ValueError` with the codes of the loop where the steps run in a circle; `find_loop`
    finds it beforehand.
    """
    loop = find_loop(steps)
    if loop:
        raise ValueError("the steps run in a circle: " + " -> ".join(loop))
    place = {step.code: number for number, step in enumerate(steps)}
    done: set[str] = set()
    order: list[Step] = []
    for first in steps:
        waiting = [first.code]
        while waiting:
            step = steps[place[waiting[-1]]]
            open_before = [code for code in step.after if code in place and code not in done]
            if open_before:
                waiting.extend(reversed(open_before))
                continue
            waiting.pop()
            if step.code not in done:
                done.add(step.code)
                order.append(step)
    return order


def find_loop(steps: Sequence[Step]) -> list[str]:
    """Return the codes of one loop of steps, first and last the same; empty where there is none."""
    after = {step.code: step.after for step in steps}
    finished: set[str] = set()
    for start in after:
        trail: dict[str, int] = {}
        stack = [(start, False)]
        while stack:
            code, leaving = stack.pop()
            if leaving:
                del trail[code]
                finished.add(code)
                continue
            if code in trail:
                codes = list(trail)
                return [*codes[trail[code] :], code]
            if code in finished:
                continue
            trail[code] = len(trail)
            stack.append((code, True))
            stack.extend((before, False) for before in after[code] if before in after)
    return []
