"""What plan, steps and decisions stand at, kept until a row is added that could change them.

Rows of these tables are never changed or taken away, so their largest numbers tell whether what
was read before still holds: one short question instead of reading the plan again for every scan.
"""

from __future__ import annotations

from dataclasses import field
from typing import TYPE_CHECKING
from weakref import WeakKeyDictionary

from sqlalchemy import bindparam, func, select

from inventory.core.frozen import frozen
from inventory.core.items import part_key
from inventory.store.ledger.events import step_states
from inventory.store.ledger.quick import Quick
from inventory.store.planning.plans import current_plan_id, needs_of, step_codes
from inventory.store.planning.setting_aside import all_set_aside
from inventory.store.planning.stand_ins import stand_ins_that_count
from inventory.store.tables.ledger import slip as slip_table
from inventory.store.tables.planning import plan as plan_table
from inventory.store.tables.planning import step_event as event_table
from inventory.store.tables.preparing import set_aside as aside_table
from inventory.store.tables.preparing import stand_in as stand_in_table

if TYPE_CHECKING:
    from collections.abc import Mapping

    from sqlalchemy import Connection, Engine

    from inventory.core.planning.kept_pieces import Kept
    from inventory.core.planning.plan import Need
    from inventory.core.planning.workshop import StandIn

Stamp = tuple[int, ...]


@frozen
class Standing:
    """The plan that counts, its steps by their compared codes, and how far each has come."""

    plan: int | None
    codes: Mapping[str, tuple[str, ...]]
    """Codes as the plan writes them, by what `part_key` makes of them."""
    states: Mapping[str, str]
    stand_ins: tuple[StandIn, ...] = ()
    kept: tuple[Kept, ...] = ()
    """What was set aside for which step, whatever became of it since."""
    _needs: dict[str, tuple[Need, ...]] = field(default_factory=dict)

    def needs(self, db: Connection, kit: int, step: str) -> tuple[Need, ...]:
        """Return what a step uses; read once, since a plan's rows never change."""
        if self.plan is None:
            return ()
        if step not in self._needs:
            self._needs[step] = needs_of(db, kit, self.plan, step)
        return self._needs[step]


_kept: WeakKeyDictionary[Engine, dict[int, tuple[Stamp, Standing]]] = WeakKeyDictionary()

_KIT = bindparam("kit", type_=plan_table.c.kit.type)
_STAMP = Quick(
    select(
        select(func.max(plan_table.c.id)).where(plan_table.c.kit == _KIT).scalar_subquery(),
        select(func.count())  # the newest of them would be looked for among all acts
        .where(slip_table.c.kit == _KIT, slip_table.c.undoes > 0)
        .scalar_subquery(),
        *(
            select(func.max(table.c.id)).where(table.c.kit == _KIT).scalar_subquery()
            for table in (event_table, aside_table, stand_in_table)
        ),
    )
)


def standing(db: Connection, kit: int, *, untouched: bool = False) -> Standing:
    """Return what stands in this moment.

    It is kept only where a connection that never writes read it, or one that is `untouched` by
    its act yet: what an act has added may yet be taken back, and its numbers be given again.
    """
    (numbers,) = _STAMP.rows(db, {"kit": kit})
    stamp = tuple(number or 0 for number in numbers)
    of_engine = _kept.setdefault(db.engine, {})
    before = of_engine.get(kit)
    if before is not None and before[0] == stamp:
        return before[1]
    now = _read(db, kit)
    if untouched or db.get_execution_options().get("begin") == "DEFERRED":
        of_engine[kit] = (stamp, now)
    return now


def _read(db: Connection, kit: int) -> Standing:
    codes: dict[str, tuple[str, ...]] = {}
    for code in step_codes(db, kit):
        key = part_key(code)
        codes[key] = (*codes.get(key, ()), code)
    return Standing(
        current_plan_id(db, kit),
        codes,
        step_states(db, kit),
        tuple(stand_ins_that_count(db, kit)),
        tuple(all_set_aside(db, kit)),
    )
