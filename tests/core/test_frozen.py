"""Frozen values are the same as those that a plain dataclass makes."""

from __future__ import annotations

import copy
import inspect
import pickle
from dataclasses import FrozenInstanceError, asdict, dataclass, field, replace

import pytest

from inventory.core.frozen import frozen
from inventory.core.lists.packing import PackingLine


@dataclass(frozen=True, slots=True)
class Plain:
    """As `dataclass` makes it."""

    part: str
    pieces: int = 1
    marks: list[str] = field(default_factory=list)
    crate: str = field(default="", kw_only=True)
    where: str = field(default="", compare=False, repr=False, kw_only=True)


@frozen
class Quick:
    """The same, quickly."""

    part: str
    pieces: int = 1
    marks: list[str] = field(default_factory=list)
    crate: str = field(default="", kw_only=True)
    where: str = field(default="", compare=False, repr=False, kw_only=True)


@frozen(kw_only=True)
class Nothing:
    """It has no field."""


@frozen
class Checked:
    """It looks at what it is given, and says itself how it is shown."""

    pieces: int

    def __post_init__(self) -> None:
        if self.pieces < 0:
            raise ValueError("less than none")

    def __repr__(self) -> str:
        return f"{self.pieces} pieces"


def test_it_takes_the_same_arguments_and_shows_the_same() -> None:
    for made in (Plain, Quick):
        assert list(inspect.signature(made).parameters) == [
            "part", "pieces", "marks", "crate", "where",
        ]  # fmt: skip
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


def test_a_field_that_is_not_compared_makes_no_difference() -> None:
    for made in (Plain, Quick):
        one, two = made("T2-1", where="B2"), made("T2-1", where="C7")
        assert one == two
        assert one != made("T2-2")
        assert one != object()
        assert asdict(one)["where"] == "B2"


def test_values_of_different_kinds_are_never_equal() -> None:
    values: list[object] = [Plain("T2-1"), Quick("T2-1"), Nothing()]
    assert [[one == two for two in values] for one in values] == [
        [True, False, False], [False, True, False], [False, False, True],
    ]  # fmt: skip
    assert Nothing() == Nothing()
    assert hash(Nothing()) == hash(Nothing())
    assert repr(Nothing()) == "Nothing()"


def test_what_a_class_says_of_itself_stays() -> None:
    assert repr(Checked(3)) == "3 pieces"
    with pytest.raises(ValueError, match="less than none"):
        Checked(-1)
    assert {Checked(3): "three"}[Checked(3)] == "three"


@frozen
class Larger(Quick):
    """A kind of another kind."""

    length: int = 0


def test_a_kind_of_another_kind_has_the_fields_of_both() -> None:
    one = Larger("T2-1", 3, length=7)
    assert (one.part, one.pieces, one.length) == ("T2-1", 3, 7)
    assert replace(one, length=8) != one
    with pytest.raises(FrozenInstanceError):
        one.length = 8  # type: ignore[misc]


def test_it_is_taken_apart_and_kept_like_any_other() -> None:
    match Quick("T2-1", 3):
        case Quick(part, pieces):
            assert (part, pieces) == ("T2-1", 3)
    assert pickle.loads(pickle.dumps(Checked(3))) == Checked(3)  # noqa: S301 - our own
