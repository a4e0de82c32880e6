"""Score the reading of lists nobody has seen: `python -m tests.benchmarks.score_lists`.

Each list is read cold by the command itself, and its entry for every source row is held against
the truth kept beside the list. A silent error is a part, an amount or a hand that is wrong where
nothing was asked, or a row that nobody can read and that was read all the same.
"""

from __future__ import annotations

import argparse
import json
import os
import subprocess
import sys
import tempfile
from collections import Counter, defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from tests.benchmarks.list_truth import row_faults
from tests.benchmarks.unseen_lists.make import make

Entry = Mapping[str, Any]
ROOT = Path(__file__).parents[2]
KEPT = Path(__file__).parent / "unseen_lists" / "score.json"


@dataclass(slots=True)
class Score:
    """What came out for some lists."""

    lists: int = 0
    rows: int = 0
    missing: int = 0
    wrong_class: int = 0
    silent: int = 0
    needless: int = 0
    unread: list[str] = field(default_factory=list)
    faults: list[str] = field(default_factory=list)

    def add(self, other: Score) -> None:
        """Add another score to this one."""
        for name in ("lists", "rows", "missing", "wrong_class", "silent", "needless"):
            setattr(self, name, getattr(self, name) + getattr(other, name))
        self.unread += other.unread
        self.faults += other.faults

    def line(self, name: str) -> str:
        """Return the score as one line of the table."""
        right = 100 * (self.rows - self.missing - self.wrong_class) / max(1, self.rows)
        asked = 100 * self.needless / max(1, self.rows)
        return (
            f"{name:<12}{self.lists:>6}{self.rows:>8}{self.missing:>9}{right:>10.2f} %"
            f"{self.silent:>8}{asked:>10.2f} %{len(self.unread):>8}"
        )


def read_cold(path: Path, store: Path) -> Sequence[Entry]:
    """Return the command's entry for every row of a list, read without a saved layout."""
    command = [sys.executable, "-m", "inventory", "--store", str(store), "packing-list", "read"]
    done = subprocess.run(
        [*command, str(path), "--dry-run", "--rows", "--json"],
        check=False,
        capture_output=True,
        text=True,
        cwd=ROOT,
        env={**os.environ, "NO_COLOR": "1"},
        timeout=120,
    )
    try:
        answer = json.loads(done.stdout)
    except json.JSONDecodeError:
        raise ValueError(f"exit {done.returncode}: {done.stderr.strip()[-300:]}") from None
    return [dict(row) for row in answer["content"]]


def score(path: Path, store: Path) -> Score:
    """Score one list."""
    truths = json.loads(path.with_suffix(".truth.json").read_text(encoding="utf-8"))
    try:
        entries = read_cold(path, store)
    except (ValueError, KeyError, subprocess.TimeoutExpired) as fault:
        return Score(
            lists=1, rows=len(truths), missing=len(truths), unread=[f"{path.name}: {fault}"]
        )
    return compare(path.name, truths, entries)


def compare(name: str, truths: Sequence[Entry], entries: Sequence[Entry]) -> Score:
    """Hold the entries of one list against the truth about its rows."""
    several = len({truth["sheet"] for truth in truths}) > 1
    by_row: dict[tuple[str, int], list[Entry]] = defaultdict(list)
    for entry in entries:
        by_row[entry["sheet"] if several else "", int(entry["row"])].append(entry)
    result = Score(lists=1, rows=len(truths))
    for truth in truths:
        found = by_row.get((truth["sheet"] if several else "", truth["row"]), [])
        faults = row_faults(truth, found)
        kinds = Counter(kind for kind, _ in faults)
        result.missing += kinds["missing"]
        result.wrong_class += kinds["class"]
        result.silent += min(1, kinds["silent"])
        result.needless += kinds["needless"]
        place = f"{name} {truth['sheet']}:{truth['row']}"
        result.faults += [f"{place} {kind}: {words}" for kind, words in faults]
    return result


def main() -> None:
    """Make the lists, read them, print the table; `--save` keeps it beside the lists' maker."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--seed", type=int, default=1)
    options.add_argument(
        "--show", type=int, default=20, help="failing rows to print for each office"
    )
    options.add_argument("--office", default="", help="only offices whose name begins so")
    options.add_argument("--save", action="store_true")
    given = options.parse_args()
    totals: dict[str, Score] = defaultdict(Score)
    with tempfile.TemporaryDirectory() as folder:
        for path in make(Path(folder) / "lists", given.seed):
            if path.name.startswith(given.office):
                found = score(path, Path(folder) / "cold.kitwright")
                totals[path.stem.split("_")[0]].add(found)
                totals["all"].add(found)
    print("office       lists    rows  missing  right class  silent  needless   unread")
    for name, total in sorted(totals.items(), key=lambda one: one[0] == "all"):
        print(total.line(name))
    for name, total in totals.items():
        for fault in (*total.unread, *total.faults)[: given.show if name != "all" else 0]:
            print(fault)
    if given.save:
        names = ("lists", "rows", "missing", "wrong_class", "silent", "needless")
        kept = {office: {n: getattr(total, n) for n in names} for office, total in totals.items()}
        KEPT.write_text(json.dumps({"seed": given.seed, **kept}, indent=1) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
