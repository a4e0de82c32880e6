"""README's walk is run, line by line, and its output compared; KITWRIGHT_UPDATE=1 rewrites it."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
README = ROOT / "README.md"
_BLOCK = re.compile(r"```console\n(.*?)```", re.DOTALL)


def _commands(block: str) -> list[str]:
    return [line[2:] for line in block.splitlines() if line.startswith("$ ")]


def _told(line: str, folder: Path) -> str:
    environment = os.environ | {
        "KITWRIGHT_STORE": "rudder.kitwright",
        "KITWRIGHT_BY": "Class",
        "COLUMNS": "80",
        "PYTHONPATH": str(ROOT),
        "PATH": f"{folder / 'bin'}:{os.environ['PATH']}",
    }
    ran = subprocess.run(
        ["/bin/sh", "-c", line],
        cwd=folder,
        env=environment,
        capture_output=True,
        text=True,
        check=False,
    )
    assert ran.returncode == 0, f"{line}\n{ran.stderr}"
    return ran.stdout


@pytest.fixture
def shed(tmp_path: Path) -> Path:
    shutil.copytree(ROOT / "sample_kits" / "tarn_rudder", tmp_path, dirs_exist_ok=True)
    (tmp_path / "bin").mkdir()
    program = tmp_path / "bin" / "kitwright"
    program.write_text(f'#!/bin/sh\nexec "{sys.executable}" -m inventory "$@"\n')
    program.chmod(0o755)
    return tmp_path


def test_walk_prints_what_readme_shows(shed: Path) -> None:
    text = README.read_text(encoding="utf-8")

    def run_again(block: re.Match[str]) -> str:
        told = "".join(f"$ {line}\n{_told(line, shed)}" for line in _commands(block[1]))
        return f"```console\n{told}```"

    walked = _BLOCK.sub(run_again, text)
    if os.environ.get("KITWRIGHT_UPDATE"):
        README.write_text(walked, encoding="utf-8")
    assert walked == text


def test_readme_has_exactly_two_set_up_commands() -> None:
    blocks = re.findall(r"```sh\n(.*?)```", README.read_text(encoding="utf-8"), re.DOTALL)
    set_up = [block for block in blocks if "pip install" in block]
    assert len(set_up) == 2
    assert "kitwright demo" in set_up[0]
    assert "pytest" in set_up[1]
