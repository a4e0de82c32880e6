"""The float kit at full size: read, counted, put away, planned, with some weeks of work in it."""

from __future__ import annotations

import csv
import os
import shlex
from contextlib import closing
from datetime import UTC, date, datetime
from pathlib import Path

from inventory.cli import context
from inventory.cli.app import run
from inventory.core.record.slips import Slip
from inventory.jobs.acts import Bench
from inventory.jobs.bench.put_away_files import put_from_file
from inventory.jobs.bench.putting_away import add_bins
from inventory.jobs.kits import begin_kit
from inventory.jobs.lists.reading_lists import read_list
from inventory.jobs.lists.unpacking import take_in
from inventory.jobs.planning.planning import read_plan_file, take_in_plan
from inventory.jobs.receiving.counts_file import count_from_file
from inventory.jobs.receiving.receiving import close_crate
from inventory.jobs.stores import open_or_begin

KIT = Path(__file__).parents[2] / "sample_kits" / "tarn_floats"
NOW = datetime(2026, 7, 3, 10, 0, tzinfo=UTC)
LATER = (
    'Part number,Description,Hand,Ordered,Shipped,Crate\nT2-FL-41011,"SKIN, BOTTOM",LH,1,1,7 OF 7\n'
)
"""What the second shipment's list says, the file `later.csv`."""
ACTS = (
    "delivery record --carriage road --delivered 2026-06-20 --country DE --list 1",
    "packing-list read later.csv --as-well",
    "lot record T2-CN-0001 L77 --made 2025-06 --months 12 --type II --opened 2026-06-25",
    "bin put T2-CN-0001 30ml --from bought --to S-49 --lot L77",
    "issue T2-CN-0001 20ml --step 41-01R --lot L77 --expired --why 'Ana tested it' --by Ana",
    "bin put AN960-416 20 --from D-13 --to S-42",
    "to-order minimum AN4-7A 200",
    "to-order place AN960-8 50 --from Heron --ref M1 --promised 2026-07-01",
    "substitute AN960-416 AN960-416L --why 'plans FL-47 rev B, note 3' --by Ana",
    "issue T2-FL-41012 1 --step 41-01R --by Ana",
    "take-back T2-FL-41012 1 --step 41-01R --to S-41 --by Ana",
    "cut record T2-ST-0316 1x640mm --to S-48",
)
"""What the class did since, as typed."""


def build(folder: Path) -> None:
    """Make the store `kits.kitwright` in a folder, and the file of the later list beside it."""
    path = folder / "kits.kitwright"
    with closing(open_or_begin(str(path))) as store:
        bench = Bench(store, begin_kit(store, "Tarn T2 floats", "T2", NOW))
        take_in(bench, read_list(KIT / "packing_list.xlsx", {}, None), _slip("list"))
        count_from_file(bench, KIT / "counts.csv", _slip("counts"))
        for crate in "12345":
            close_crate(bench, crate, _slip(f"close {crate}"))
        with (KIT / "put_away.csv").open(encoding="utf-8", newline="") as file:
            add_bins(bench, sorted({row["bin"] for row in csv.DictReader(file)}), "", _slip("bins"))
        put_from_file(bench, KIT / "put_away.csv", "", _slip("put"))
        take_in_plan(bench, read_plan_file(KIT / "plan.xlsx"), _slip("plan"))
    (folder / "later.csv").write_text(LATER, encoding="utf-8")
    _act(folder)


def _slip(key: str) -> Slip:
    return Slip(key=key, recorded_at=NOW, happened_on=date(2026, 7, 3), person="Ana")


def _act(folder: Path) -> None:
    before = Path.cwd()
    os.chdir(folder)
    try:
        for line in ACTS:
            context.typed = context.Context()
            code = run(["--store", "kits.kitwright", *shlex.split(line)])
            if code:
                raise RuntimeError(f"{code} from kitwright {line}")
    finally:
        os.chdir(before)
