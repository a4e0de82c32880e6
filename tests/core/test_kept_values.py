"""What must mean the same in ten years: names, what is taken where nothing is said, units."""

from __future__ import annotations

import dataclasses
import tomllib
from enum import Enum
from importlib import import_module
from pathlib import Path
from pkgutil import walk_packages
from types import ModuleType
from typing import TYPE_CHECKING

import pytest

import inventory.core
import labels
from inventory.core import cautions
from inventory.core.measures.units import AMBIGUOUS, UNITS, find_unit, meanings

if TYPE_CHECKING:
    from collections.abc import Iterator

KEPT = tomllib.loads(
    (Path(__file__).parents[1] / "cases" / "kept_values.toml").read_text(encoding="utf-8")
)


def kinds() -> Iterator[tuple[str, type]]:
    """Yield every class of the core and the labels, by module and name."""
    for package in (inventory.core, labels):
        for found in walk_packages(package.__path__, f"{package.__name__}."):
            module = import_module(found.name)
            for name, kind in vars(module).items():
                if isinstance(kind, type) and kind.__module__ == module.__name__:
                    yield f"{found.name.rpartition('.')[2]}.{name}", kind


def test_names_that_stand_in_stores_and_exports_never_change() -> None:
    named = {
        name: {each.name: each.value for each in kind}
        for name, kind in kinds()
        if issubclass(kind, Enum)
    }
    assert named == KEPT["named"]


def test_what_nobody_said_is_empty_but_for_what_is_listed_here() -> None:
    """Nothing is assumed in silence: a field that nobody fills says nothing."""
    taken = {
        f"{name}.{field.name}": repr(field.default)
        for name, kind in kinds()
        if dataclasses.is_dataclass(kind)
        for field in dataclasses.fields(kind)
        if field.default is not dataclasses.MISSING and field.default
    }
    assert taken == KEPT["taken"]


@pytest.mark.parametrize("word", KEPT["units"])
def test_every_printed_word_means_its_unit(word: str) -> None:
    code, measure, spellings = KEPT["units"][word]
    unit = UNITS[word]
    assert (unit.code, unit.word, str(unit.measure)) == (code, word, measure)
    meant = {spelling: find_unit(spelling) for spelling in spellings.split()}
    assert {spelling for spelling, found in meant.items() if found is not unit} == set()


def test_every_caution_is_worded_as_it_was_agreed() -> None:
    """What keeps a builder from relying on the program too far is changed on purpose or not."""
    said = {name: text for name, text in vars(cautions).items() if name.isupper()}
    assert said == {name: " ".join(text.split()) for name, text in KEPT["cautions"].items()}


def test_words_of_several_meanings_are_exactly_these() -> None:
    assert {word: list(units) for word, units in AMBIGUOUS.items()} == KEPT["asked"]
    assert {word for word in AMBIGUOUS if find_unit(word) or len(meanings(word)) < 2} <= {"#"}
    assert list(UNITS) == list(KEPT["units"])


def test_the_labels_offer_what_they_import_and_nothing_else() -> None:
    offered = {
        name
        for name, value in vars(labels).items()
        if not name.startswith("_") and not isinstance(value, ModuleType) and name != "annotations"
    }
    assert sorted(labels.__all__) == sorted(offered)
