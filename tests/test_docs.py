"""What the docs list is what the tree holds; KITWRIGHT_UPDATE=1 rewrites the lists."""

from __future__ import annotations

import ast
import os
import re
from pathlib import Path

import pytest

from inventory.cli.tree import COMMANDS
from tests.benchmarks.table import table

ROOT = Path(__file__).parent.parent


def first_line(path: Path) -> str:
    docstring = ast.get_docstring(ast.parse(path.read_text(encoding="utf-8"))) or ""
    return docstring.splitlines()[0]


def layout() -> str:
    lines: list[str] = []
    for package in ("inventory", "labels"):
        folders = sorted({path.parent for path in (ROOT / package).rglob("*.py")})
        for folder in folders:
            lines += ["", f"**{folder.relative_to(ROOT)}**", ""]
            lines += [
                f"- `{path.name}`: {first_line(path)}"
                for path in sorted(folder.glob("*.py"))
                if path.name != "__init__.py" or len(path.read_text(encoding="utf-8")) > 1
            ]
    return "\n".join([*lines, ""])


def commands() -> str:
    rows = [f"| `{name}` | {entry.summary} |" for name, entry in COMMANDS.items()]
    return "\n".join(["", "| command | what it does |", "|---|---|", *rows, ""])


def held(path: Path, name: str, content: str) -> None:
    text = path.read_text(encoding="utf-8")
    now = re.sub(
        rf"(<!-- {name} -->\n).*?(<!-- /{name} -->)",
        lambda found: f"{found[1]}{content}\n{found[2]}",
        text,
        flags=re.DOTALL,
    )
    if os.environ.get("KITWRIGHT_UPDATE"):
        path.write_text(now, encoding="utf-8")
    assert now == text, f"{path.name} is behind: run this test with KITWRIGHT_UPDATE=1"


def test_layout_lists_every_module_by_its_first_line() -> None:
    held(ROOT / "DEVELOPERS.md", "layout", layout())


def test_last_run_of_the_benchmarks_is_shown_as_it_was_kept() -> None:
    held(ROOT / "DEVELOPERS.md", "benchmarks", table())


def test_readme_lists_every_command() -> None:
    held(ROOT / "README.md", "commands", commands())


def test_every_promise_names_tests_that_are_there() -> None:
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    named = re.findall(r"`(tests/[\w/]+\.py)::(\w+)`", text)
    missing = [
        f"{path}::{name}"
        for path, name in named
        if not (ROOT / path).is_file()
        or f"def {name}(" not in (ROOT / path).read_text(encoding="utf-8")
    ]
    assert (len(named) > 20, missing) == (True, [])


TWINS = {
    "When it says recorded": "test_without_its_safeguard_a_power_cut_would_lose_something",
    "An act, a list": "test_outside_one_transaction_an_act_that_fails_would_leave_its_slip",
    "History is never": "test_without_its_triggers_a_record_could_be_changed",
    "What lies anywhere": "test_without_its_trigger_more_could_be_taken_than_lies_there",
    "Several people": "test_writers_that_begin_as_readers_would_not_get_through",
    "A backup counts": "test_without_reading_it_back_a_spoilt_copy_would_be_called_a_backup",
    "Changes to old": "test_without_the_chain_a_changed_record_would_not_show",
    "A store of a newer": "test_without_its_check_a_newer_store_would_be_written_to",
    "Disk full": "test_without_its_transaction_a_full_disk_would_leave_half_an_act",
}
"""By the first words of a promise of the record: its trial with the safeguard taken off."""


@pytest.mark.parametrize(("promise", "twin"), TWINS.items())
def test_a_promise_of_the_record_names_its_trial_without_the_safeguard(
    promise: str, twin: str
) -> None:
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    (row,) = [line for line in text.splitlines() if line.startswith(f"| {promise}")]
    assert f"::{twin}`" in row


def test_every_module_says_what_it_is() -> None:
    bare = [
        str(path)
        for package in ("inventory", "labels")
        for path in (ROOT / package).rglob("*.py")
        if not first_line(path)
    ]
    assert bare == []
