"""What a plan says, in words for a table: differences, uses."""

from __future__ import annotations

from dataclasses import fields
from typing import TYPE_CHECKING

from inventory.cli.amounts import amount
from inventory.cli.show import hand_word
from inventory.core.measures.lengths import show_length
from inventory.core.planning.plan import Need

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from inventory.core.planning.plan import Step
    from inventory.core.planning.plan_difference import PlanChange
    from inventory.core.planning.where_used import Use

_UNTOLD = {"row", "where", "code", "step", "part", "printed"}


def change_rows(changes: Iterable[PlanChange]) -> Iterator[tuple[str, str, str, str, str]]:
    """Return a row for each difference: what became of it, step, part, hand, and its details."""
    for change in changes:
        words = "; ".join(_details(change.old, change.new)) or _whole(change.new or change.old)
        yield change.altered, change.step, change.part, hand_word(change.hand), words


def _whole(entry: Step | Need | None) -> str:
    """Return what was added or removed, in short."""
    if isinstance(entry, Need):
        words = ("as required" if entry.as_required else amount(entry, entry.quantity),
                 entry.description)  # fmt: skip
        return ", ".join(word for word in words if word)
    return f"the step: {entry.title}" if entry else ""


def _details(old: Step | Need | None, new: Step | Need | None) -> Iterator[str]:
    if old is None or new is None:
        return
    for field in fields(new):
        before, now = getattr(old, field.name), getattr(new, field.name)
        if field.name not in _UNTOLD and before != now:
            yield (
                f"{field.name.replace('_', ' ')}: {_shown(old, field.name, before)} -> "
                f"{_shown(new, field.name, now)}"
            )


def _shown(entry: Step | Need, name: str, value: object) -> str:
    if isinstance(value, int) and not isinstance(value, bool):
        if isinstance(entry, Need) and name in {"quantity", "spare"}:
            return amount(entry, value, bare=True)
        return show_length(value) if name == "length" else str(value)
    if isinstance(value, tuple):
        return ", ".join(map(str, value)) or "nothing"
    if isinstance(value, bool):
        return "yes" if value else "no"
    return str(value) or "nothing"


def use_rows(uses: Iterable[Use]) -> Iterator[tuple[str, str, str, str, str]]:
    """Return a row for each use: step, hand, how much, place on the plans, what it ends up in."""
    for use in uses:
        need = use.need
        place = " ".join(filter(None, (need.sheet, need.find_number)))
        way = " > ".join(use.steps[1:])
        yield (
            use.steps[0], hand_word(need.hand), amount(need, use.quantity), place,
            f"step {way}" if way else "",
        )  # fmt: skip
