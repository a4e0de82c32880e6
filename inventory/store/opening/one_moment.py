"""Questions that are answered once for each moment of the store that somebody looks at."""

from __future__ import annotations

from functools import wraps
from typing import TYPE_CHECKING, Any, Concatenate, ParamSpec, TypeVar, cast

if TYPE_CHECKING:
    from collections.abc import Callable

    from sqlalchemy import Connection

P = ParamSpec("P")
R = TypeVar("R")

KEPT = "kept"
"""Execution option of a connection that sees one moment and never writes: what was read there."""


def read_once(
    question: Callable[Concatenate[Connection, P], R],
) -> Callable[Concatenate[Connection, P], R]:
    """Let a question that is asked again of the same moment be answered from memory.

    A list or a table is given as a copy. Where the connection writes, each question is read anew.
    """

    @wraps(question)
    def asked(db: Connection, /, *args: P.args, **kwargs: P.kwargs) -> R:
        kept: dict[object, Any] | None = db.get_execution_options().get(KEPT)
        if kept is None:
            return question(db, *args, **kwargs)
        key = (question, args, tuple(sorted(kwargs.items())))
        if key not in kept:
            kept[key] = question(db, *args, **kwargs)
        answer = kept[key]
        return cast("R", answer.copy() if isinstance(answer, (list, dict)) else answer)

    return asked
