"""Keeps a small store of the newest schema, to be upgraded by every later program.

    python -m tests.store.kept.make

Run once for each released schema, before the next change is added; a kept store is never made
again.
"""

from __future__ import annotations

import gzip
import sys
import tempfile
from contextlib import closing
from pathlib import Path

from inventory.jobs.acts import Bench
from inventory.jobs.kits import begin_kit
from inventory.store.opening.database import SCHEMA, begin_store
from tests.conftest import NOW
from tests.store.filled import fill

HERE = Path(__file__).parent


def main() -> None:
    kept = HERE / f"schema_{SCHEMA}.kitwright.gz"
    if kept.exists():
        sys.exit(f"{kept.name} is kept already")
    with tempfile.TemporaryDirectory() as place:
        path = Path(place) / "kits.kitwright"
        with closing(begin_store(str(path))) as store:
            fill(Bench(store, begin_kit(store, "Tarn T2", "T2", NOW)), devices=False)
        kept.write_bytes(gzip.compress(path.read_bytes(), mtime=0))


if __name__ == "__main__":
    main()
