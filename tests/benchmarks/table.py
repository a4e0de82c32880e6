"""The last kept run of the benchmarks as the table in DEVELOPERS.md; a test holds both equal."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

KEPT = Path(__file__).with_name("last.json")


def table() -> str:
    """Return the kept run as Markdown: how it was measured, then a row for each figure."""
    kept = json.loads(KEPT.read_text(encoding="utf-8"))
    rows = [_row(name, row) for name, figures in kept["modules"].items() for row in figures]
    head = ["| benchmark | what | figure | goal | | detail |", "|---|---|---|---|---|---|"]
    return "\n".join(["", _how(kept["run"]), "", *head, *rows, ""])


def _how(run: dict[str, Any]) -> str:
    sizes = "smaller sizes and fewer rounds (`--quick`)" if run["quick"] else "full sizes"
    begin, end = ("/".join(map(str, run[f"load_at_{when}"])) for when in ("begin", "end"))
    return (
        f"One run, {run['begun_at']} to {run['ended_at']}, {sizes}, {run['machine']}, "
        f"load {begin} at its begin and {end} at its end."
    )


def _row(name: str, row: dict[str, Any]) -> str:
    figure = (
        f"x {row['figure']:.3g}" if row["unit"] == "x" else f"{row['figure']:.3g} {row['unit']}"
    )
    cells = (name, row["what"], figure, f"{row['goal']:g}", row["verdict"], row["detail"])
    return "| " + " | ".join(cell.replace("|", "/").strip() for cell in cells) + " |"
