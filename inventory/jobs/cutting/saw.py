"""The person's own saw: what a cut takes, what the ends lose, what rest is worth keeping."""

from __future__ import annotations

from dataclasses import field
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.planning.workshop import Saw
from inventory.store.settings import set_setting, setting

if TYPE_CHECKING:
    from inventory.store.opening.database import Connection, Store

LEAST_REMNANT = 50_800_000
"""Two inches: a shorter rest is thrown away unless the person says otherwise (own choice)."""

_KERF, _TRIM, _LEAST = "saw kerf", "saw trim", "least remnant"


@frozen
class OwnSaw:
    """The saw, and the shortest rest that goes back to the rack; nanometres."""

    saw: Saw = field(default_factory=Saw)
    least_remnant: int = LEAST_REMNANT


def saw_within(db: Connection) -> OwnSaw:
    """Return what the person measured on their saw, else what is common."""
    common = OwnSaw()
    return OwnSaw(
        Saw(
            kerf=int(setting(db, _KERF, str(common.saw.kerf))),
            trim=int(setting(db, _TRIM, str(common.saw.trim))),
        ),
        least_remnant=int(setting(db, _LEAST, str(common.least_remnant))),
    )


def own_saw(store: Store) -> OwnSaw:
    """Return the saw that cuts are planned for."""
    with store.reading() as db:
        return saw_within(db)


def keep_saw(
    store: Store, *, kerf: int | None = None, trim: int | None = None, least: int | None = None
) -> OwnSaw:
    """Keep what was measured for all cuts to come; what isn't said stays as it was."""
    with store.writing() as db:
        for name, length in ((_KERF, kerf), (_TRIM, trim), (_LEAST, least)):
            if length is not None:
                set_setting(db, name, str(length))
        return saw_within(db)
