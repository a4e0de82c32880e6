"""All benchmarks, one after another, each a process of its own: `python -m tests.benchmarks`.

Prints one table. A run of all is kept in `last.json`, which DEVELOPERS.md shows; a run of some only
with `--keep`: what is kept is always of one run. Figures are ratios to a floor measured in the same
run, by processor time; 1 where one alarms. `--quick` takes smaller sizes and fewer rounds.
"""

from __future__ import annotations

import argparse
import json
import os
import platform
import subprocess
import sys
import tempfile
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from tests.benchmarks.measure import PYTHON, ROOT, line
from tests.benchmarks.table import KEPT

HERE = Path(__file__).parent
MODULES = (
    "start_up",
    "scanning",
    "importing",
    "planning",
    "cutting",
    "labels",
    "web",
    "photos",
    "shared_store",
    "scale",
)
MOST_SECONDS = 1800
FAILED = {"verdict": "failed"}


def main() -> int:
    """Run all modules, or those that are named, and print one table."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    there = [name for name in MODULES if HERE.joinpath(f"{name}.py").is_file()]
    parser.add_argument("modules", nargs="*", metavar="MODULE", help=f"of {', '.join(there)}")
    parser.add_argument("--quick", action="store_true")
    parser.add_argument("--keep", action="store_true", help="keep a run of some modules, too")
    asked = parser.parse_args()
    if unknown := sorted({*asked.modules} - {*there}):
        parser.error(f"there is no benchmark {', '.join(unknown)}")
    begun = moment()
    found = {name: run(name, quick=asked.quick) for name in asked.modules or there}
    for name, rows in found.items():
        print(f"\n{name}")
        for row in rows:
            print(line(row))
    if asked.keep or not asked.modules:
        keep(found, begun, quick=asked.quick)
    return int(
        any(row["verdict"] in ("ALARM", "failed") for rows in found.values() for row in rows)
    )


def run(name: str, *, quick: bool) -> list[dict[str, Any]]:
    """Run one module and return its figures; one that breaks off is a figure of its own."""
    print(f"{name} ...", file=sys.stderr, flush=True)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "figures.json"
        command = [PYTHON, "-m", f"tests.benchmarks.{name}", "--json", str(path)]
        ended = subprocess.run(
            [*command, *(["--quick"] if quick else [])],
            cwd=ROOT,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.PIPE,
            text=True,
            timeout=MOST_SECONDS,
            check=False,
        )
        if not path.is_file():
            why = (ended.stderr.strip().splitlines() or ["no figures"])[-1]
            return [
                whole({"what": name, "figure": 0, "goal": 0, "verdict": "failed", "detail": why})
            ]
        return [whole(row) for row in json.loads(path.read_text(encoding="utf-8"))]


def whole(row: dict[str, Any]) -> dict[str, Any]:
    """Return a figure with every field, whatever its module left out."""
    met = "met" if row["figure"] <= row["goal"] else "missed"
    return {"unit": "x", "verdict": met, "detail": "", **row}


def moment() -> tuple[str, list[float]]:
    """Return the time and the load: a busy machine makes every figure worse, ratios too."""
    load = [round(each, 1) for each in os.getloadavg()]
    return datetime.now(UTC).isoformat(timespec="minutes"), load


def keep(
    found: dict[str, list[dict[str, Any]]], begun: tuple[str, list[float]], *, quick: bool
) -> None:
    """Keep the figures of this run, and nothing of any other."""
    ended = moment()
    how = {
        "begun_at": begun[0],
        "ended_at": ended[0],
        "quick": quick,
        "machine": f"{os.cpu_count()} processors, {platform.system()}, "
        f"Python {platform.python_version()}",
        "load_at_begin": begun[1],
        "load_at_end": ended[1],
    }
    kept = {"run": how, "modules": found}
    KEPT.write_text(json.dumps(kept, indent=1, ensure_ascii=False) + "\n", encoding="utf-8")


if __name__ == "__main__":
    sys.exit(main())
