"""Acts one after another, in the order in which they came."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, ParamSpec, TypeVar

from anyio import CapacityLimiter, to_thread
from anyio.lowlevel import RunVar

if TYPE_CHECKING:
    from collections.abc import Callable

P = ParamSpec("P")
R = TypeVar("R")

_turn: RunVar[CapacityLimiter] = RunVar("turn")
"""One for each event loop: it wakes those who wait, which only their own loop can do."""


async def in_turn(act: Callable[P, R], *args: P.args, **kwargs: P.kwargs) -> R:
    """Do an act in a thread, once all that came before it are done.

    Sixteen threads that wait for one lock hold each other up, and the last to come may be served
    first; waiting here costs nothing, and nobody waits longer than the others.
    """
    return await to_thread.run_sync(partial(act, *args, **kwargs), limiter=_limiter())


def _limiter() -> CapacityLimiter:
    try:
        return _turn.get()
    except LookupError:
        made = CapacityLimiter(1)
        _turn.set(made)
        return made
