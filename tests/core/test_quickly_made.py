"""Values that are made by the hundred thousand: the same as those a plain dataclass makes."""

from __future__ import annotations

import copy
import inspect
from dataclasses import FrozenInstanceError, dataclass, field, replace

import pytest

from inventory.core.lists.packing import PackingLine
from inventory.core.quickly_made import quickly_made


@dataclass(frozen=True, slots=True)
class Plain:
    """As `dataclass` makes it."""

    part: str
    pieces: int = 1
    marks: list[str] = field(default_factory=list)
    crate: str = field(default="", kw_only=True)


@quickly_made
@dataclass(frozen=True, slots=True)
class Quick:
    """The same, quickly."""

    part: str
    pieces: int = 1
    marks: list[str] = field(default_factory=list)
    crate: str = field(default="", kw_only=True)


def test_it_takes_the_same_arguments_and_shows_the_same() -> None:
    for made in (Plain, Quick):
        assert list(inspect.signature(made).parameters) == ["part", "pieces", "marks", "crate"]
    shown = repr(Plain("T2-1", 3, ["x"], crate="C1"))
    assert repr(Quick("T2-1", 3, ["x"], crate="C1")) == shown.replace("Plain", "Quick")
    assert repr(Quick("T2-1")) == repr(Plain("T2-1")).replace("Plain", "Quick")


def test_a_default_that_is_made_anew_is_nobody_elses() -> None:
    assert Quick("T2-1").marks is not Quick("T2-1").marks


@pytest.mark.parametrize("wrong", [(), ("T2-1", 1, [], "C1"), ("T2-1", 1, [], "C1", 5)])
def test_wrong_arguments_are_refused(wrong: tuple[object, ...]) -> None:
    for made in (Plain, Quick):
        with pytest.raises(TypeError):
            made(*wrong)  # type: ignore[arg-type]


def test_it_is_frozen_compared_hashed_and_copied_like_any_other() -> None:
    line = PackingLine(sheet="L", row=2, part="T2-1", printed="T2-1", ordered=2, shipped=2)
    assert type(line) is PackingLine
    with pytest.raises(FrozenInstanceError):
        line.row = 3  # type: ignore[misc]
    with pytest.raises(FrozenInstanceError):
        del line.row
    again = replace(line)
    assert again == line
    assert hash(again) == hash(line)
    assert replace(line, row=3) != line
    assert copy.copy(line) == copy.deepcopy(line) == line
