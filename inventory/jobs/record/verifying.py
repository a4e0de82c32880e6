"""Verify: reads the whole record again and says what is wrong with it."""

from __future__ import annotations

from contextlib import closing
from dataclasses import replace
from typing import TYPE_CHECKING

from inventory.core.errors import Problem, StoreError
from inventory.core.frozen import frozen
from inventory.core.record.chain import printed_seal
from inventory.jobs.stores import open_store
from inventory.store.kits import all_kits
from inventory.store.ledger.movements import last_link
from inventory.store.opening.address import is_file, path_of
from inventory.store.opening.database import SCHEMA, schema_of
from inventory.store.opening.expected import changed_schema
from inventory.store.opening.shares import WARNING, share_of
from inventory.store.receiving.photo_records import photo_folder
from inventory.store.record.checking import (
    broken_chain,
    clock_went_back,
    damaged_pages,
    disordered_slips,
    looked,
    stray_rows,
    wrong_balances,
    wrong_photos,
    wrong_seal,
)
from inventory.store.record.saving import what_is_left

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from pathlib import Path

    from inventory.store.kits import Kit
    from inventory.store.opening.database import Connection, Store


@frozen
class Check:
    """One thing that was looked at, and what is wrong with it."""

    looked_at: str
    problems: tuple[Problem, ...]


@frozen
class Seal:
    """The end of a kit's chain, as papers print it."""

    kit: str
    seal: str


@frozen
class Verified:
    """What verifying found."""

    checks: tuple[Check, ...]
    seals: tuple[Seal, ...]
    notes: tuple[str, ...] = ()
    """What isn't wrong and should be known: a clock set back, a store on a network share."""

    @property
    def problems(self) -> tuple[Problem, ...]:
        """All that is wrong."""
        return tuple(problem for check in self.checks for problem in check.problems)


def verify(store: Store, printed: Sequence[tuple[int, str]] = ()) -> Verified:
    """Look at everything in a store, and at seals that were printed earlier."""
    with store.reading() as db:
        found = verify_within(db, photo_folder(store.address), printed)
    share = share_of(path_of(store.address)) if is_file(store.address) else ""
    warned = (WARNING.format(kind=share),) if share else ()
    return replace(found, notes=(*warned, *found.notes))


def verify_within(
    db: Connection, photos: Path | None, printed: Sequence[tuple[int, str]] = ()
) -> Verified:
    """Look at everything of the store in the moment that `db` reads, and at its photographs."""
    looks = _looks(db, photos)
    if printed:
        looks["seals printed earlier"] = lambda: [
            problem for number, digits in printed for problem in _no_kit_bears(db, number, digits)
        ]
    checks = tuple(Check(what, tuple(looked(db, look))) for what, look in looks.items())
    sound = not any(check.problems for check in checks)
    return Verified(checks, _seals(db), _clocks(db)) if sound else Verified(checks, ())


def _looks(db: Connection, photos: Path | None) -> dict[str, Callable[[], list[Problem]]]:
    """Return what to look at; of a store of an older schema, what no table's columns matter to."""
    schema = schema_of(db)
    every: dict[str, Callable[[], list[Problem]]] = {
        "pages of the file": lambda: damaged_pages(db),
        "tables and their guards": lambda: changed_schema(db, schema),
        "rows that belong together": lambda: stray_rows(db),
    }
    if schema < SCHEMA:
        return every
    return every | {
        "balances, from all movements": lambda: _of_kits(db, wrong_balances),
        "acts and undoings": lambda: _of_kits(db, disordered_slips),
        "the chain of seals": lambda: _of_kits(db, broken_chain),
        "photographs": lambda: wrong_photos(db, photos) if photos else [],
    }


def _of_kits(db: Connection, look: Callable[[Connection, Kit], list[Problem]]) -> list[Problem]:
    return [problem for kit in all_kits(db) for problem in look(db, kit)]


def _no_kit_bears(db: Connection, number: int, digits: str) -> list[Problem]:
    """Return nothing where one of the kits bears the seal: a paper names its kit in words."""
    found = [wrong_seal(db, kit, number, digits) for kit in all_kits(db)]
    return [] if not all(found) else [problems[0] for problems in found]


def _seals(db: Connection) -> tuple[Seal, ...]:
    return tuple(Seal(kit.code, printed_seal(*last_link(db, kit.id))) for kit in all_kits(db))


def _clocks(db: Connection) -> tuple[str, ...]:
    return tuple(
        f"a clock was set back: act {number} of kit {kit.code} bears an earlier time than the "
        "act before it; their order holds"
        for kit in all_kits(db)
        for number in clock_went_back(db, kit)
    )


def verify_file(address: str, printed: Sequence[tuple[int, str]] = ()) -> Verified:
    """Verify the store at an address; one too damaged to be opened is only looked at."""
    try:
        store = open_store(address)
    except StoreError as error:
        if "damaged" not in error.what:
            raise
        return _damaged(address, error, printed)
    with closing(store):
        return verify(store, printed)


def _damaged(address: str, error: StoreError, printed: Sequence[tuple[int, str]]) -> Verified:
    """Look at what is left of a store that can't be opened."""
    try:
        with what_is_left(address) as left, left.reading() as db:
            return verify_within(db, photo_folder(address), printed)
    except StoreError:
        whole = Problem(error.what, error.where, error.remedy)
        return Verified((Check("pages of the file", (whole,)),), ())
