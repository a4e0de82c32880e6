"""The whole check: what it installs, and which command it runs."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

import pytest

from tests import programs

ROOT = Path(__file__).parents[1]
RUN = (ROOT / ".ci/run").read_text(encoding="utf-8")


def code_lines(markdown: str) -> list[str]:
    return "".join(re.findall(r"(?ms)^```[^\n]*\n(.*?)^```", markdown)).splitlines()


def test_readme_prints_one_command_that_runs_the_tests() -> None:
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    assert len([line for line in code_lines(readme) if "pytest" in line]) == 1


def test_every_program_a_test_requires_is_installed_by_the_check() -> None:
    table = RUN.split('system_packages="')[1].split('"')[0]
    rows = [line.split() for line in table.strip().splitlines()]
    brought = {brings.split(".so")[0].removeprefix("lib") for _, brings in rows}
    texts = [path.read_text(encoding="utf-8") for path in (ROOT / "tests").glob("**/*.py")]
    called = re.findall(r'require_(?:program|library)\("([\w.-]+)"', "\n".join(texts))
    wanted = {name for name in called if not name.startswith("no-such")}
    assert wanted - brought - {"bash"} == set()


def test_the_check_script_parses() -> None:
    bash = programs.require_program("bash")
    for name in ("run", "lock"):
        subprocess.run([bash, "-n", str(ROOT / ".ci" / name)], check=True)


def test_a_missing_program_is_a_skip_that_names_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("KITWRIGHT_ALL", raising=False)
    with pytest.raises(pytest.skip.Exception, match="no-such-program is not installed"):
        programs.require_program("no-such-program")
    with pytest.raises(pytest.skip.Exception, match="library no-such-library"):
        programs.require_library("no-such-library")


def test_a_missing_program_fails_where_every_test_must_run(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setenv("KITWRIGHT_ALL", "1")
    with pytest.raises(pytest.fail.Exception, match="no-such-program"):
        programs.require_program("no-such-program")
