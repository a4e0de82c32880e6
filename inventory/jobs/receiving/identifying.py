"""What a number says: decoded, replaced by what, known in this kit, and what looks like it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError
from inventory.core.frozen import frozen
from inventory.core.items import part_key
from inventory.core.parts.hardware import identify
from inventory.core.parts.hardware_grammar import Reading
from inventory.core.parts.hardware_weight import rivet_mass
from inventory.core.parts.lookalikes import match_number
from inventory.core.parts.supersession import may_fill, replacements, spelled
from inventory.jobs.receiving.own_hardware import OwnHardware
from inventory.store.ledger.names import PartName, all_parts
from inventory.store.planning.plans import current_plan
from inventory.store.receiving.packing_lists import current_lines

if TYPE_CHECKING:
    from inventory.core.lists.packing import PackingLine
    from inventory.core.parts.hardware import HardwareNumber
    from inventory.core.parts.hardware_weight import MassRange
    from inventory.core.parts.supersession import Replacement
    from inventory.core.planning.plan import Need
    from inventory.jobs.acts import Bench

__all__ = ["Identified", "OwnHardware", "identify_number"]


@frozen(kw_only=True)
class Identified:
    """All that is known of a number; nothing of it says that a part is good or allowed."""

    number: HardwareNumber
    replacements: tuple[Replacement, ...]
    """None for a number that begins like a standard one, yet can't be one."""
    mass: MassRange | None
    """What one piece may weigh, computed."""
    part: PartName | None
    """The part of this kit with exactly this number."""
    lines: tuple[PackingLine, ...]
    needs: tuple[Need, ...]
    same_on_paper: tuple[str, ...]
    """Numbers of this kit that are one part with it on paper, by a source that was read."""
    near: tuple[str, ...]
    """Numbers of this kit that look like it: questions, never answers."""


def identify_number(bench: Bench | None, text: str, own: OwnHardware) -> Identified:
    """Return what a number says, and how this kit knows it; without a kit the number alone."""
    key = part_key(text)
    if not key:
        raise InventoryError("a number is missing", remedy="Type it as it is printed.")
    parts: dict[str, PartName] = {}
    lines: list[PackingLine] = []
    needs: tuple[Need, ...] = ()
    if bench is not None:
        with bench.store.reading() as db:
            parts = all_parts(db, bench.kit.id)
            lines = current_lines(db, bench.kit.id)
            needs = current_plan(db, bench.kit.id).needs
    number = identify(text, own.families)
    together = may_fill(key, own.rules) - {spelled(key)}
    strange = bool(number.family) and number.reading is Reading.UNKNOWN
    return Identified(
        number=number,
        replacements=() if strange else replacements(key, own.rules),
        mass=rivet_mass(number),
        part=parts.get(key),
        lines=tuple(line for line in lines if line.part == key),
        needs=tuple(need for need in needs if need.part == key),
        same_on_paper=tuple(
            part.printed for part in parts.values() if spelled(part.key) in together
        ),
        near=() if key in parts else _near(text, parts),
    )


def _near(text: str, parts: dict[str, PartName]) -> tuple[str, ...]:
    return tuple(
        each.number for each in match_number(text, [p.printed for p in parts.values()]).near
    )
