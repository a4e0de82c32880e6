"""Doing an act again that lost against another one, or lost its connection."""

from __future__ import annotations

import time
from functools import wraps
from typing import TYPE_CHECKING, Concatenate, ParamSpec, TypeVar

from inventory.core.errors import TryAgainError
from inventory.store.opening.joined import JoinedStore

if TYPE_CHECKING:
    from collections.abc import Callable

    from inventory.jobs.acts import Bench

P = ParamSpec("P")
R = TypeVar("R")

PAUSES = (0.05, 0.2, 1.0)
"""Seconds before each further try."""


def tried_again(act: Callable[Concatenate[Bench, P], R]) -> Callable[Concatenate[Bench, P], R]:
    """Let an act be tried up to four times; its slip is recorded once, whatever was lost.

    Inside somebody else's transaction it isn't: only the whole of that can be done again.
    """

    @wraps(act)
    def again(bench: Bench, /, *args: P.args, **kwargs: P.kwargs) -> R:
        for pause in () if isinstance(bench.store, JoinedStore) else PAUSES:
            try:
                return act(bench, *args, **kwargs)
            except TryAgainError:
                time.sleep(pause)
        return act(bench, *args, **kwargs)

    return again
