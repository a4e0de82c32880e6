"""Frozen values, as `dataclass(frozen=True, slots=True)` makes them, at a third of the cost.

A command makes some seventy kinds of them before it begins, and a list is read into hundreds of
thousands. `dataclass` writes six methods for each kind and compiles them one by one; of these only
the one that differs, how a value is filled, is written here, and the others are shared.
"""

from __future__ import annotations

from dataclasses import MISSING, Field, FrozenInstanceError, dataclass, field, fields
from operator import attrgetter
from typing import TYPE_CHECKING, Any, TypeVar, cast, dataclass_transform, overload

if TYPE_CHECKING:
    from collections.abc import Callable

T = TypeVar("T")


@overload
def frozen(kind: type[T]) -> type[T]: ...
@overload
def frozen(*, kw_only: bool = False) -> Callable[[type[T]], type[T]]: ...
@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def frozen(
    kind: type[T] | None = None, *, kw_only: bool = False
) -> type[T] | Callable[[type[T]], type[T]]:
    """Make a class of values that never change; every field is an argument.

    Its fields, defaults, `fields` and `replace` are those of `dataclass`.
    """

    def make(bare: type[T]) -> type[T]:
        made = dataclass(init=False, repr=False, eq=False, slots=True, kw_only=kw_only)(bare)
        own = made.__dict__
        for name, method in _methods(made).items():
            if name not in own or name == "__hash__":
                setattr(made, name, method)
        return made

    return make if kind is None else make(kind)


def _methods(kind: type[Any]) -> dict[str, Callable[..., Any]]:
    described = fields(kind)
    return {
        "__init__": _filling(kind, described),
        "__repr__": _shown,
        "__setattr__": _refuse_to_change,
        "__delattr__": _refuse_to_change,
        "__getstate__": _state,
        "__setstate__": _set_state,
        **_comparing(tuple(each.name for each in described if each.compare)),
    }


def _comparing(names: tuple[str, ...]) -> dict[str, Callable[..., Any]]:
    """Return how values of one kind are told apart: by these fields."""
    compared = attrgetter(*names) if names else _nothing

    def equal(self: object, other: object) -> object:
        alike = other.__class__ is self.__class__
        return compared(self) == compared(other) if alike else NotImplemented

    def hashed(self: object) -> int:
        return hash(compared(self))

    return {"__eq__": equal, "__hash__": hashed}


def _nothing(_: object) -> tuple[()]:
    return ()


def _shown(self: Any) -> str:  # noqa: ANN401  whatever kind of value
    told = (f"{each.name}={getattr(self, each.name)!r}" for each in fields(self) if each.repr)
    return f"{self.__class__.__qualname__}({', '.join(told)})"


def _refuse_to_change(_: object, name: str, *__: object) -> None:
    raise FrozenInstanceError(f"cannot change field {name!r}")


def _state(self: Any) -> list[Any]:  # noqa: ANN401
    return [getattr(self, each.name) for each in fields(self)]


def _set_state(self: Any, state: list[Any]) -> None:  # noqa: ANN401
    for each, kept in zip(fields(self), state, strict=True):
        object.__setattr__(self, each.name, kept)


def _filling(kind: type[Any], described: tuple[Field[Any], ...]) -> Callable[..., None]:
    """Write the method that fills a value without asking its own lock for every field.

    The value is of an open class with the same slots while it is filled, and of its own before
    anyone else sees it.
    """
    slots = tuple(each.name for each in described)
    given: dict[str, Any] = {
        "_kind": kind,
        "_open": type(kind.__name__, (), {"__slots__": slots}),
        "_unlocked": object.__setattr__,
        "_missing": MISSING,
    }
    lines = [f"def __init__(self{_arguments(described, given)}):"]
    lines += [
        f" if {each.name} is _missing: {each.name} = _new_{each.name}()"
        for each in described
        if each.default_factory is not MISSING
    ]
    if kind.__bases__ == (object,):
        lines.append(" _unlocked(self, '__class__', _open)")
        lines += [f" self.{name} = {name}" for name in slots]
        lines.append(" self.__class__ = _kind")
    else:  # one of another kind, too, has other slots than the open class
        lines += [f" _unlocked(self, '{name}', {name})" for name in slots]
    if hasattr(kind, "__post_init__"):
        lines.append(" self.__post_init__()")
    exec("\n".join(lines), given)  # noqa: S102  as `dataclass` itself makes it
    made = cast("Callable[..., None]", given["__init__"])
    made.__qualname__ = f"{kind.__qualname__}.__init__"
    return made


def _arguments(described: tuple[Field[Any], ...], given: dict[str, Any]) -> str:
    """Return the arguments of the fields; their defaults are put into `given`."""
    placed = [f", {_argument(each, given)}" for each in described if not each.kw_only]
    named = [f", {_argument(each, given)}" for each in described if each.kw_only]
    return "".join([*placed, *([", *", *named] if named else [])])


def _argument(described: Field[Any], given: dict[str, Any]) -> str:
    name = described.name
    if described.default_factory is not MISSING:
        given[f"_new_{name}"] = described.default_factory
        return f"{name}=_missing"
    if described.default is not MISSING:
        given[f"_default_{name}"] = described.default
        return f"{name}=_default_{name}"
    return name
