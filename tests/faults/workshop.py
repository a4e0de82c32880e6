"""A store with plenty in one bin, and the program that scans it out until somebody stops it."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from dataclasses import dataclass
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING

from inventory.core.places import Place, PlaceKind
from inventory.core.planning.plan import Need, Plan, Step
from inventory.core.record.slips import Slip
from inventory.jobs.acts import Bench
from inventory.jobs.bench.finding_items import Asked, Taking
from inventory.jobs.bench.putting_away import Putting, add_bins, put
from inventory.jobs.kits import begin_kit
from inventory.jobs.planning.planning import take_in_plan
from inventory.jobs.record.backup import choose
from inventory.store.opening.database import begin_store

if TYPE_CHECKING:
    from pathlib import Path

PART, BIN, STEP = "T2-RU-0412", "B-07", "10-02"
PLENTY = 10**6
NOW = datetime(2026, 11, 25, 10, 0, tzinfo=UTC)


def slip_of(key: str) -> Slip:
    return Slip(key=key, recorded_at=NOW, happened_on=date(2026, 11, 25))


def make_workshop(address: Path | str) -> None:
    """Begin a store whose one bin holds a million of one part, for one step that needs them."""
    with closing(begin_store(str(address))) as store:
        choose(store, every=0)
        bench = Bench(store, begin_kit(store, "Tarn T2", "T2", NOW))
        need = Need(step=STEP, part=PART, quantity=PLENTY)
        plan = Plan(source="p", sha256="1" * 64, steps=(Step(code=STEP),), needs=(need,))
        take_in_plan(bench, plan, slip_of("plan"))
        add_bins(bench, [BIN], "", slip_of("bin"))
        taking = Taking(Asked(part=PART), PLENTY, Place(PlaceKind.OPENING))
        put(bench, [Putting(taking, BIN)], slip_of("put"))


@dataclass(frozen=True)
class Found:
    """What a store holds after it was stopped: `wrong` says what is torn or damaged."""

    issued: int
    wrong: str = ""


def look(path: Path) -> Found:
    """Open the store as SQLite does after a crash, and see whether acts are whole."""
    try:
        with closing(sqlite3.connect(f"file:{path}?mode=rw", uri=True)) as db:
            return _looked(db)
    except sqlite3.Error as error:
        return Found(0, f"{error}")


def _looked(db: sqlite3.Connection) -> Found:
    said = db.execute("PRAGMA integrity_check").fetchone()[0]
    stray = db.execute("PRAGMA foreign_key_check").fetchall()
    slips, moved, lies = db.execute(
        "SELECT (SELECT count(*) FROM slip WHERE act = 'issue'), "
        "(SELECT count(*) FROM movement JOIN slip ON slip.kit = movement.kit "
        "AND slip.id = movement.slip AND act = 'issue'), "
        "(SELECT coalesce(sum(quantity), 0) FROM balance JOIN place ON place.kit = balance.kit "
        "AND place.id = balance.place AND place.kind = 'step')"
    ).fetchone()
    wrong = "" if said == "ok" else str(said)
    if stray or not slips == moved == lies:
        wrong += f" torn: {slips} acts, {moved} movements, {lies} in the step, {len(stray)} stray"
    return Found(slips, wrong)
