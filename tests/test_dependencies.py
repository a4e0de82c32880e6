"""What the packages lean on: declared, locked with hashes, under licences that go with ours."""

from __future__ import annotations

import re
import sys
import tomllib
from importlib import metadata
from pathlib import Path

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from tests.test_layers import imports, name_of

ROOT = Path(__file__).parents[1]
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
LOCK = (ROOT / "requirements.lock").read_text(encoding="utf-8")
LICENCES = tomllib.loads((ROOT / "tests/cases/licences.toml").read_text(encoding="utf-8"))
OURS = {"inventory", "labels", "sample_kits", "tests"}
OPTIONAL = {"labels.symbol": {"zxing-cpp"}}
"""Modules that refuse with the extra's name where a library of that extra isn't there."""


def declared(*extras: str) -> list[Requirement]:
    """Return what the project asks for itself, and for the extras named."""
    project = PROJECT["project"]
    texts = [*project["dependencies"]]
    texts += [text for extra in extras for text in project["optional-dependencies"][extra]]
    return [one for text in texts if (one := Requirement(text)).name != "kitwright"]


def names(requirements: list[Requirement]) -> set[str]:
    return {canonicalize_name(one.name) for one in requirements}


def locked() -> dict[str, list[str]]:
    """Return the versions of each locked name."""
    versions: dict[str, list[str]] = {}
    for name, version in re.findall(r"(?m)^([a-z0-9._-]+)(?:\[[a-z0-9,._-]+\])?==([^\s;]+)", LOCK):
        versions.setdefault(canonicalize_name(name), []).append(version)
    return versions


def everything() -> list[Requirement]:
    check = [Requirement(text) for text in PROJECT["dependency-groups"]["check"]]
    return [*declared(*PROJECT["project"]["optional-dependencies"]), *check]


def test_every_dependency_is_locked_at_a_version_it_allows() -> None:
    versions = locked()
    wrong = [
        str(one)
        for one in everything()
        if not any(map(one.specifier.contains, versions.get(canonicalize_name(one.name), [])))
    ]
    assert wrong == []


def test_every_dependency_has_a_lower_bound() -> None:
    bounds = {one.name: {limit.operator for limit in one.specifier} for one in everything()}
    assert {name: found for name, found in bounds.items() if found != {">="}} == {}


def test_what_a_package_asks_with_an_extra_is_locked_with_it() -> None:
    """pip takes `coverage[toml]` for another name than the locked `coverage`, and looks further."""
    locked_extras = set(re.findall(r"(?m)^([a-z0-9._-]+\[[a-z0-9,._-]+\])==", LOCK))
    asked = {"coverage[toml]"}  # by pytest-cov
    asked |= {f"{one.name}[{','.join(sorted(one.extras))}]" for one in everything() if one.extras}
    assert asked <= locked_extras


def test_every_locked_version_has_hashes_and_no_address() -> None:
    entries = re.split(r"(?m)^(?=[a-z0-9])", LOCK)[1:]
    hashless = [one.split()[0] for one in entries if not re.search(r"sha256:[0-9a-f]{64}", one)]
    assert hashless == []
    assert re.findall(r"https?:|--(?!hash=)\S+|@ ", LOCK) == []


def home_of(module: str) -> list[str]:
    """Return the distributions that bring a module."""
    return [canonicalize_name(one) for one in PROVIDERS.get(module, [])]


PROVIDERS = metadata.packages_distributions()


def undeclared(folder: str, allowed: set[str]) -> list[str]:
    """Return one sentence for each library a folder imports that isn't in the allowed ones."""
    wrong = []
    for path in sorted((ROOT / folder).glob("**/*.py")):
        module = name_of(path, ROOT)
        for name, _ in imports(path, ROOT):
            library = name.split(".")[0]
            if library in {*sys.stdlib_module_names, *OURS}:
                continue
            fine = allowed | OPTIONAL.get(module, set())
            if not fine.intersection(home_of(library)):
                wrong.append(f"{module} imports {library}")
    return wrong


def test_packages_import_only_what_they_declare() -> None:
    plain, web = names(declared()), names(declared("web"))
    wrong = {*undeclared("inventory", plain), *undeclared("labels", plain)}
    of_web = {*undeclared("inventory/web", plain), *undeclared("inventory/cli", plain)}
    assert wrong - of_web == set()
    assert undeclared("inventory/web", web) == []


def test_tests_import_only_what_they_declare() -> None:
    assert undeclared("tests", names(declared("web", "postgres", "test")) | {"packaging"}) == []


def licence_of(name: str) -> str:
    """Return what the installed package says of its licence, in its own words."""
    about = metadata.metadata(name).json
    kinds = [text for text in about.get("classifier", []) if text.startswith("License")]
    brief = str(about.get("license", "")).splitlines()[:1]
    return " ".join([str(about.get("license_expression", "")), *brief, *kinds])


WORDS = {"PSF-2.0": "PSF", "MPL-2.0": "MPL", "MIT OR Apache-2.0": "MIT", "ISC": "ISC"}


def test_every_locked_package_has_a_licence_that_was_looked_at() -> None:
    listed = [one for group in LICENCES.values() for found in group.values() for one in found]
    assert sorted(listed) == sorted(locked())


def test_packages_state_the_licence_that_is_listed() -> None:
    installed = {canonicalize_name(one.name) for one in metadata.distributions()}
    groups = [*LICENCES["permissive"].items(), *LICENCES["weak-copyleft"].items()]
    wrong = {
        name: licence_of(name)
        for licence, members in groups
        for name in installed.intersection(members)
        if WORDS.get(licence, licence.split("-")[0]) not in licence_of(name)
    }
    assert wrong == {}


def needed_by(requirements: set[str]) -> set[str]:
    """Return all that is installed for some requirements, theirs included."""
    seen: set[str] = set()
    waiting = set(requirements)
    while waiting:
        name = waiting.pop()
        seen.add(name)
        for text in metadata.requires(name) or []:
            one = Requirement(text)
            if one.marker is None or one.marker.evaluate({"extra": ""}):
                waiting |= {canonicalize_name(one.name)} - seen
    return seen


def test_copyleft_stays_in_the_extras() -> None:
    weak = {one for found in LICENCES["weak-copyleft"].values() for one in found}
    assert needed_by(names(declared("web"))) & weak == set()
    assert names(declared("postgres")) - names(declared()) == {"psycopg"}
