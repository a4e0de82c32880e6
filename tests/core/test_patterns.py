"""Patterns that are put together when they are first used."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

from inventory.core.patterns import pattern

INVENTORY = Path(__file__).parents[2] / "inventory"


def test_it_finds_what_the_same_pattern_finds() -> None:
    later, at_once = pattern(r"(?P<word>BAG)\s+[0-9]+", re.IGNORECASE), re.compile("")
    at_once = re.compile(r"(?P<word>BAG)\s+[0-9]+", re.IGNORECASE)
    for text in ("bag 12", "BAG", "in bag 7", ""):
        for how in ("match", "fullmatch", "search"):
            mine, its = getattr(later, how)(text), getattr(at_once, how)(text)
            assert (mine and mine.groups()) == (its and its.groups())
        assert later.sub("x", text) == at_once.sub("x", text)
    assert later.pattern == at_once.pattern
    assert later.flags == at_once.flags


def test_a_mistake_shows_when_it_is_used() -> None:
    wrong = pattern("(")
    with pytest.raises(re.error):
        wrong.search("a")


def test_every_pattern_of_ours_can_be_put_together() -> None:
    found = 0
    for path in INVENTORY.rglob("*.py"):
        names = [
            node.targets[0].id
            for node in ast.parse(path.read_text(encoding="utf-8")).body
            if isinstance(node, ast.Assign)
            and isinstance(node.targets[0], ast.Name)
            and isinstance(node.value, ast.Call)
            and isinstance(node.value.func, ast.Name)
            and node.value.func.id == "pattern"
        ]
        if names:
            module = __import__(
                ".".join(path.relative_to(INVENTORY.parent).with_suffix("").parts), fromlist=names
            )
            for name in names:
                assert getattr(module, name).pattern
                found += 1
    assert found
