"""Kills, power cuts and full disks, short; each beside a twin without its safeguard.

The long runs are the scripts of this folder, called by hand.
"""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from tests import programs

if TYPE_CHECKING:
    from tests.postgres import Server

ROOT = Path(__file__).parents[2]


def figures(script: str, *words: str) -> list[dict[str, Any]]:
    """Run a script of this folder and return the lines of JSON it ends with."""
    ended = subprocess.run(
        [sys.executable, "-m", f"tests.faults.{script}", *words],
        check=True,
        capture_output=True,
        text=True,
        cwd=ROOT,
    )
    return [json.loads(line) for line in ended.stdout.splitlines()]


def test_fifty_kills_during_a_scan_session_lose_no_ok_that_was_shown() -> None:
    (found,) = figures("kill_loop", "--times", "50")
    assert found.pop("acknowledged") >= 50
    assert found == {"kind": "scan", "kills": 50, "sound": 50}


def test_kills_while_a_phone_scans_lose_no_ok_that_was_shown() -> None:
    (found,) = figures("kill_loop", "--kind", "web", "--times", "6")
    assert found.pop("acknowledged") >= 6
    assert found == {"kind": "web", "kills": 6, "sound": 6}


def test_an_answer_before_the_act_is_stored_would_be_found_by_a_kill() -> None:
    (found,) = figures("kill_loop", "--times", "4", "--early")
    assert found["lost"] > 0


@pytest.mark.parametrize("kind", ["import", "backup", "restore", "migrate"])
def test_kills_leave_all_of_an_act_or_nothing(kind: str) -> None:
    (found,) = figures("kill_loop", "--kind", kind, "--times", "3")
    assert found["sound"] == 3


def test_a_power_cut_after_any_call_loses_no_ok_that_was_shown() -> None:
    programs.require_program("strace")
    (found,) = figures("power_cuts", "--times", "5", "--seeds", "1")
    assert found["shown"] == 5
    assert found["sound"] == found["cuts"] > 150


@pytest.mark.parametrize(
    ("off", "worst"),
    [
        ("synchronous=2", "lost"),  # FULL: the folder isn't synced after the journal is gone
        ("synchronous=0", "damaged"),  # OFF
    ],
)
def test_without_its_safeguard_a_power_cut_would_lose_something(off: str, worst: str) -> None:
    programs.require_program("strace")
    (found,) = figures("power_cuts", "--times", "3", "--seeds", "2", "--off", off)
    assert found[worst] > 0


def test_a_disk_that_fills_at_any_point_refuses_with_words_and_loses_nothing() -> None:
    (found,) = figures("full_disk", "--step", "65536", "--only", "issue")
    assert set(found) == {"command", "sizes", "refused, and done again", "done"}
    assert found["done"] == 1


@pytest.mark.parametrize("database", ["sqlite", "postgresql"])
def test_several_people_at_once_lose_no_update(
    database: str, request: pytest.FixtureRequest
) -> None:
    words = ["--minutes", "0.03", "--clients", "3"]
    if database == "postgresql":
        server: Server = request.getfixturevalue("postgresql")
        words += ["--store", server.empty()]
    (found,) = figures("soak", *words)
    assert found["problems"] == []
    assert found["pieces_lost"] == 0
    assert found["acts"]["issue"] > 3
