"""Options that need no checking are taken as they were typed.

Typer checks every option by a library that takes longer to load than most commands take to run,
although a text is a text. What has a rule of its own (a number that was typed, a choice, a range)
is still checked by it.
"""

from __future__ import annotations

import os
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

import typer
from typer.core import TyperGroup

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

_KEPT = "_runtime_param"
"""Where a parameter keeps its check once it has one; a Typer without it checks as ever."""


def command_of(app: typer.Typer) -> Any:  # noqa: ANN401  a class of Typer's that has no public name
    """Return the command line of a tree, its plain options taken as typed."""
    command = typer.main.get_command(app)
    for each in _commands(command):
        each.get_params = partial(_as_typed, each.get_params)
    return command


def _as_typed(parameters_of: Callable[[Any], list[Any]], ctx: Any) -> list[Any]:  # noqa: ANN401
    """Return the parameters of a command, that for its help among them."""
    parameters = parameters_of(ctx)
    for each in parameters:
        if _is_plain(each) and getattr(each, _KEPT) is None:
            setattr(each, _KEPT, _AsTyped())
    return parameters


def _commands(command: Any) -> Iterator[Any]:  # noqa: ANN401  as above
    yield command
    if isinstance(command, TyperGroup):
        for each in command.commands.values():
            yield from _commands(each)


def _is_plain(parameter: Any) -> bool:  # noqa: ANN401  as above
    """Say whether it is one text, path or number without a rule of its own."""
    described = getattr(parameter, "type_descriptor", None)
    if described is None or not hasattr(parameter, _KEPT):
        return False
    rules = described.parameter_info
    single = parameter.nargs == 1 and not getattr(parameter, "multiple", False)
    free = rules.parser is None and rules.min is None and rules.max is None
    path = rules.exists or rules.resolve_path or rules.allow_dash or rules.path_type
    return single and free and not path and described.annotation in {str, Path, int, float, bool}


class _AsTyped:
    """Stands where a parameter keeps its check."""

    def coerce(self, value: Any, param: Any, ctx: Any) -> Any:  # noqa: ANN401  whatever was typed
        """Return the value if it is of its type already, or a path; else have it checked."""
        kind = param.type_descriptor.annotation
        if value is None or type(value) is kind:
            return value
        if kind is Path and isinstance(value, (str, Path)) and _can_be_read(value):
            return Path(value)
        setattr(param, _KEPT, None)
        return param.get_runtime_param().coerce(value, param=param, ctx=ctx)


def _can_be_read(path: str | Path) -> bool:
    """Say whether a path may be read, or names nothing yet."""
    return not os.path.lexists(path) or os.access(path, os.R_OK)
