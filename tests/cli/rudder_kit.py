"""The rudder kit in a store of its own: its list read, and its crates counted and closed."""

from __future__ import annotations

from contextlib import closing
from datetime import UTC, date, datetime
from pathlib import Path

from inventory.core.record.slips import Slip
from inventory.jobs.acts import Bench
from inventory.jobs.kits import begin_kit, list_kits
from inventory.jobs.lists.reading_lists import read_list
from inventory.jobs.lists.unpacking import take_in
from inventory.jobs.receiving.counts_file import count_from_file
from inventory.jobs.receiving.receiving import close_crate
from inventory.jobs.stores import open_or_begin

KIT = Path(__file__).parents[2] / "sample_kits" / "tarn_rudder"
NOW = datetime(2026, 7, 3, 10, 0, tzinfo=UTC)


def slip(key: str) -> Slip:
    return Slip(key=key, recorded_at=NOW, happened_on=date(2026, 7, 3))


def build_listed(path: Path) -> None:
    """Begin the kit and take its packing list in."""
    with closing(open_or_begin(str(path))) as store:
        bench = Bench(store, begin_kit(store, "Tarn T2 rudder", "T2", NOW))
        take_in(bench, read_list(KIT / "packing_list.xlsx", {}, None), slip("list"))


def build_counted(path: Path) -> None:
    """Count and close the crates of a kit whose list is read."""
    with closing(open_or_begin(str(path))) as store:
        bench = Bench(store, list_kits(store)[0])
        count_from_file(bench, KIT / "counts.csv", slip("counts"))
        for crate in "123":
            close_crate(bench, crate, slip(f"close {crate}"))
