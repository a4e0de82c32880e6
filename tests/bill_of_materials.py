"""Lists what the program is made of: every locked package, its licence, and why it is there.

    python -m tests.bill_of_materials [--json]

Read from the project file (direct dependencies with their reasons), the lock (versions and
hashes) and the licences that were looked at. Nothing is asked over the network.
"""

from __future__ import annotations

import json
import re
import sys
import tomllib
from dataclasses import asdict, dataclass
from importlib import metadata
from pathlib import Path

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).parents[1]
_REASON = re.compile(r'"([A-Za-z0-9._-]+)[^"]*",? *# *(.*)$', re.MULTILINE)
_ENTRY = re.compile(
    r"(?m)^([a-z0-9._-]+)(?:\[[a-z0-9,._-]+\])?==([^\s;\\]+)((?:.*\\\n +--hash=\S+)*)"
)


@dataclass(frozen=True)
class Component:
    """One locked package."""

    name: str
    version: str
    licence: str
    sha256: tuple[str, ...]
    direct: bool
    why: str
    """What the project file says of it, or which packages want it."""


def components() -> list[Component]:
    """Return every locked package by name."""
    direct = _direct()
    licences = _licences()
    wanted = _wanted_by()
    found = []
    for name, version, rest in _ENTRY.findall(_lock()):
        key = canonicalize_name(name)
        found.append(
            Component(
                name=key,
                version=version,
                licence=licences.get(key, "not looked at"),
                sha256=tuple(re.findall(r"sha256:([0-9a-f]{64})", rest)),
                direct=key in direct,
                why=direct.get(key) or _by(wanted.get(key, [])),
            )
        )
    return found


def _by(names: list[str]) -> str:
    return f"wanted by {', '.join(names)}" if names else "for the extra it is named in"


def _direct() -> dict[str, str]:
    """Return what the project asks for by name, each with the reason that stands beside it."""
    text = (ROOT / "pyproject.toml").read_text(encoding="utf-8")
    project = tomllib.loads(text)
    lists = [
        project["project"]["dependencies"],
        *project["project"]["optional-dependencies"].values(),
        *project["dependency-groups"].values(),
    ]
    reasons = {canonicalize_name(name): why for name, why in _REASON.findall(text)}
    named = {canonicalize_name(Requirement(each).name) for one in lists for each in one}
    return {name: reasons.get(name, "") for name in named}


def _lock() -> str:
    return (ROOT / "requirements.lock").read_text(encoding="utf-8")


def _licences() -> dict[str, str]:
    text = (ROOT / "tests/cases/licences.toml").read_text(encoding="utf-8")
    groups = tomllib.loads(text).values()
    return {name: kind for group in groups for kind, names in group.items() for name in names}


def _wanted_by() -> dict[str, list[str]]:
    """Return which installed packages ask for each package."""
    wanted: dict[str, list[str]] = {}
    for each in metadata.distributions():
        for text in each.requires or []:
            name = canonicalize_name(Requirement(text).name)
            wanted.setdefault(name, []).append(canonicalize_name(each.name))
    return {name: sorted(set(by) - {"kitwright"}) for name, by in wanted.items()}


def main(words: list[str]) -> None:
    found = components()
    if words == ["--json"]:
        sys.stdout.write(json.dumps([asdict(each) for each in found], indent=1) + "\n")
        return
    for each in found:
        mark = "*" if each.direct else " "
        sys.stdout.write(
            f"{mark} {each.name:<24} {each.version:<14} {each.licence:<28} {each.why}\n"
        )
    direct = sum(each.direct for each in found)
    sys.stdout.write(f"{len(found)} packages; the {direct} marked * are asked for by name\n")


if __name__ == "__main__":
    main(sys.argv[1:])
