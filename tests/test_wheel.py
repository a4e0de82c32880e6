"""The wheel: all that the program needs at run time, and a program that runs from it alone."""

from __future__ import annotations

import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]


@pytest.fixture(scope="module")
def unpacked(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder with the wheel's content."""
    folder = tmp_path_factory.mktemp("wheel")
    command = [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(folder)]
    subprocess.run(command, check=True, cwd=ROOT, capture_output=True, timeout=120)
    (wheel,) = folder.glob("*.whl")
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(folder / "content")
    return folder / "content"


def files(folder: Path) -> set[str]:
    paths = (path.relative_to(folder) for path in folder.rglob("*") if path.is_file())
    return {
        path.as_posix()
        for path in paths
        if "__pycache__" not in path.parts and not path.parts[0].startswith(".")
    }


def test_the_wheel_holds_every_file_of_the_packages(unpacked: Path) -> None:
    for package in ("inventory", "labels"):
        assert files(ROOT / package) - files(unpacked / package) == set()


def test_the_wheel_holds_the_rudder_kit_and_no_other(unpacked: Path) -> None:
    assert files(unpacked / "inventory" / "demo_kit") == files(ROOT / "sample_kits" / "tarn_rudder")
    assert not (unpacked / "sample_kits").exists()


def test_the_wheel_holds_no_tests(unpacked: Path) -> None:
    assert {path.name for path in unpacked.iterdir() if not path.name.endswith("dist-info")} == {
        *("inventory", "labels"),
    }


def test_the_program_runs_from_the_wheel_alone(unpacked: Path, tmp_path: Path) -> None:
    alone = {**os.environ, "PYTHONPATH": str(unpacked), "KITWRIGHT_STORE": str(tmp_path / "kit")}
    command = [sys.executable, "-m", "inventory", "--version"]
    done = subprocess.run(
        command, check=True, cwd=tmp_path, env=alone, capture_output=True, text=True, timeout=60
    )
    where = [sys.executable, "-c", "import inventory; print(inventory.__file__)"]
    found = subprocess.run(
        where, check=True, cwd=tmp_path, env=alone, capture_output=True, text=True, timeout=60
    )
    assert done.stdout.strip().split()[-1][0].isdigit()
    assert Path(found.stdout.strip()).is_relative_to(unpacked)
