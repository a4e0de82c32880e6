"""Changes the program in one small place after another, and counts which changes a test notices.

    python -m tests.mutation [--sample 800] [--seed 1] [--jobs 2] [--only labels/geometry.py]

Only `inventory/core` and `labels` are changed, and only in memory. First the tests run once under
coverage, so that each change is tried with the tests that pass its line, until one fails: their own
tests first (`tests/core`, `tests/labels`), then those of the edges and faces that use them. Changes
that no test noticed are printed, and one line of JSON at the end, with the share noticed and the
bounds of Wilson's 95 % interval where only a sample was tried. Those that may stay are listed with
their reasons in `cases/mutants_that_stay.toml`, and count as unnoticed all the same.
"""

from __future__ import annotations

import argparse
import contextlib
import io
import json
import math
import os
import random
import resource
import subprocess
import sys
import tempfile
import time
from collections import defaultdict
from dataclasses import replace
from importlib.abc import MetaPathFinder
from importlib.util import spec_from_loader
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from coverage import CoverageData
from hypothesis import Phase, settings

from tests.mutants import UNCHANGED, Mutant, changed, mutants_in, stay

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence
    from importlib.machinery import ModuleSpec
    from types import ModuleType

ROOT = Path(__file__).parents[1]
OWN = ("tests/core", "tests/labels")
OUTER = ("tests/sheets", "tests/documents", "tests/jobs", "tests/cli")
AT_IMPORT = "tests/core/test_kept_values.py"
"""Looks at the values of all modules, and so passes no line of theirs."""
_MOST_OUTER = 25
"""Tests of edges and faces that are tried for one change, spread over those that pass its line."""
_PATIENCE = 90
"""Seconds of computing after which a change counts as noticed: it made a loop without an end."""


class _Changed(MetaPathFinder):
    """Gives one module in its changed form; it is its own loader."""

    def __init__(self, mutant: Mutant) -> None:
        self.mutant = mutant
        self.package = mutant.path.endswith("/__init__.py")
        named = mutant.path.removesuffix(".py").removesuffix("/__init__")
        self.name = named.replace("/", ".")

    def find_spec(self, name: str, *_: object) -> ModuleSpec | None:
        if name != self.name:
            return None
        origin = ROOT / self.mutant.path
        spec = spec_from_loader(name, self, origin=str(origin), is_package=self.package)  # type: ignore[arg-type]
        if spec and self.package:
            spec.submodule_search_locations = [str(origin.parent)]
        return spec

    def create_module(self, _: ModuleSpec) -> None:
        return None

    def exec_module(self, module: ModuleType) -> None:
        path = ROOT / self.mutant.path
        module.__file__ = str(path)
        tree = changed(path.read_text(encoding="utf-8"), self.mutant)
        exec(compile(tree, str(path), "exec"), module.__dict__)  # noqa: S102 - our own source


def modules() -> list[str]:
    """Return the files that are changed."""
    found = [*(ROOT / "inventory/core").rglob("*.py"), *(ROOT / "labels").glob("*.py")]
    return sorted(str(path.relative_to(ROOT)) for path in found)


def sampled(wanted: int, seed: int, only: Sequence[str]) -> tuple[list[Mutant], int]:
    """Return changes spread evenly over all places there are, and how many there are in all."""
    every = [
        mutant
        for path in only or modules()
        for mutant in mutants_in(path, (ROOT / path).read_text(encoding="utf-8"))
    ]
    if not wanted or wanted >= len(every):
        return every, len(every)
    step = len(every) / wanted
    start = random.Random(seed).random() * step  # noqa: S311 - a sample, not a secret
    return [every[int(start + step * number)] for number in range(wanted)], len(every)


def passing_tests(kept: Path) -> Mapping[tuple[str, int], list[str]]:
    """Run all tests once; return for each line the tests that pass it, quickest files first."""
    if not kept.exists():
        words = ["-q", "-p", "no:cacheprovider", "-n2", "--cov=inventory.core", "--cov=labels"]
        # Relative, so that another clone may read it; coverage clears away what is named like its
        # own file.
        settled = kept.with_name(f"settings_of_{kept.name}.ini")
        settled.write_text("[run]\nrelative_files = true\n", encoding="utf-8")
        words += ["--cov-context=test", "--cov-report=", f"--cov-config={settled}"]
        words += ["--deselect", "tests/jobs/test_model.py"]  # it passes everything, at random
        subprocess.run(
            [sys.executable, "-m", "pytest", *words, *OWN, *OUTER],
            check=True,
            cwd=ROOT,
            env=os.environ | {"COVERAGE_FILE": str(kept)},
            stdout=subprocess.DEVNULL,
        )
    known = CoverageData(str(kept))
    known.read()
    found: dict[tuple[str, int], list[str]] = defaultdict(list)
    for measured in known.measured_files():
        path = Path(measured).as_posix()
        for line, contexts in known.contexts_by_lineno(measured).items():
            found[path, line] += sorted(
                {each.partition("|")[0].partition("[")[0] for each in contexts} - {""}
            )
    return found


def tests_for(mutant: Mutant, passed: Mapping[tuple[str, int], list[str]]) -> list[str]:
    """Return what to run for a change: its module's own tests, its folder's, some of the others."""
    lines: Iterable[tuple[str, int]] = [(mutant.path, line) for line in mutant.lines]
    lines_at_import = not any(passed.get(line) for line in lines)
    if lines_at_import:  # before any test
        lines = [line for line in passed if line[0] == mutant.path]
    found = {each for line in lines for each in passed.get(line, [])}
    first = f"test_{Path(mutant.path).stem}.py"
    found.update(_its_own(mutant.path))
    if lines_at_import:
        found.add(AT_IMPORT)
    own = sorted(
        (each for each in found if each.startswith(OWN)), key=lambda each: first not in each
    )
    outer = sorted(found.difference(own))
    step = max(1, len(outer) // _MOST_OUTER)
    return [*own, *outer[::step][:_MOST_OUTER]]


def _its_own(path: str) -> list[str]:
    """Return the module's own file of tests: what it makes while it is loaded is in no test."""
    folder, _, name = path.removeprefix("inventory/").rpartition("/")
    own = f"tests/{folder}/test_{name}"
    return [own] if (ROOT / own).exists() else []


def noticed(mutant: Mutant, tests: Sequence[str]) -> bool:
    """Run the tests in this very process, which ends after it; without a test nothing is."""
    if not tests:
        return False
    sys.meta_path.insert(0, _Changed(mutant))
    resource.setrlimit(resource.RLIMIT_CPU, (_PATIENCE, _PATIENCE))
    words = ["-x", "-q", "-p", "no:cacheprovider", "-n0", "-p", "no:pytest_cov"]
    words += ["--hypothesis-profile=mutants", "--rootdir", str(ROOT)]
    words += ["-W", "ignore::pytest.PytestAssertRewriteWarning"]
    with contextlib.redirect_stdout(io.StringIO()), contextlib.redirect_stderr(io.StringIO()):
        return pytest.main([*words, *tests]) != pytest.ExitCode.OK


def check_unchanged(work: Sequence[tuple[Mutant, Sequence[str]]]) -> None:
    """Stop where a test isn't found or fails by itself: then it would notice anything."""
    every = sorted({test for _, tests in work for test in tests})
    words = ["-qq", "--collect-only", "-p", "no:cacheprovider", *every]
    subprocess.run(
        [sys.executable, "-m", "pytest", *words], check=True, cwd=ROOT, stdout=subprocess.DEVNULL
    )
    same = [
        (replace(mutant, choice=UNCHANGED), tests) for mutant, tests in work[:: len(work) // 4 or 1]
    ]
    for mutant, found in tried(same, 1):
        if found:
            sys.exit(f"the tests of {mutant.path} line {mutant.first} fail without any change")


def tried(work: Sequence[tuple[Mutant, Sequence[str]]], jobs: int) -> Iterator[tuple[Mutant, bool]]:
    """Try each change in a process of its own, so many at once."""
    waiting, running = list(reversed(work)), dict[int, Mutant]()
    while waiting or running:
        while waiting and len(running) < jobs:
            mutant, tests = waiting.pop()
            child = os.fork()
            if not child:
                try:
                    found = noticed(mutant, tests)
                except BaseException:  # noqa: BLE001 - a change may raise anything
                    found = True
                os._exit(found)
            running[child] = mutant
        ended, status = os.wait()
        yield running.pop(ended), status != 0


def interval(found: int, total: int) -> tuple[float, float]:
    """Return the bounds of Wilson's score interval at 95 % (E. B. Wilson, 1927), in per cent."""
    z, share = 1.96, found / total
    middle = share + z * z / (2 * total)
    half = z * math.sqrt(share * (1 - share) / total + z * z / (4 * total * total))
    below = 1 + z * z / total
    return round(100 * (middle - half) / below, 1), round(100 * (middle + half) / below, 1)


def _warm_up() -> None:
    """Import once what every child needs, but nothing that is changed."""
    for name in ("sqlalchemy", "alembic.command", "reportlab.pdfgen.canvas", "PIL.Image", "segno"):
        __import__(name)
    settings.register_profile(
        "mutants",
        deadline=None,
        database=None,
        derandomize=True,
        phases=[Phase.explicit, Phase.generate],
    )


def main() -> None:
    asked = argparse.ArgumentParser()
    asked.add_argument("--sample", type=int, default=800)
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--jobs", type=int, default=2)
    asked.add_argument("--passed", type=Path, help="keep the coverage there, and use what is there")
    asked.add_argument("--only", action="append", default=[])
    given = asked.parse_args()
    mutants, there_are = sampled(given.sample, given.seed, given.only)
    began = time.monotonic()
    with tempfile.TemporaryDirectory(prefix="kitwright-mutants-") as place:
        passed = passing_tests(given.passed or Path(place) / "passed")
    _warm_up()
    work = [(mutant, tests_for(mutant, passed)) for mutant in mutants]
    check_unchanged(work)
    reasons, seen, missed = stay(), 0, list[Mutant]()
    for mutant, found in tried(work, given.jobs):
        seen += found
        if not found:
            missed.append(mutant)
            sys.stdout.write(f"{mutant}{' (may stay)' if mutant.key in reasons else ''}\n")
            sys.stdout.flush()
    low, high = interval(seen, len(mutants))
    figures = {
        "places": there_are,
        "tried": len(mutants),
        "noticed": seen,
        "per_cent": round(100 * seen / len(mutants), 1),
        "between": (low, high),
        "may_stay": sum(mutant.key in reasons for mutant in missed),
        "minutes": round((time.monotonic() - began) / 60, 1),
    }
    sys.stdout.write(json.dumps(figures) + "\n")


if __name__ == "__main__":
    main()
