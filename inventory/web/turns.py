"""Acts one after another, in the order in which they came."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, ParamSpec, TypeVar

from anyio import CapacityLimiter, to_thread

if TYPE_CHECKING:
    from collections.abc import Callable

    from inventory.web.serving import Serving

P = ParamSpec("P")
R = TypeVar("R")


async def in_turn(serving: Serving, act: Callable[P, R], *args: P.args, **kwargs: P.kwargs) -> R:
    """Do an act in a thread, once all that came before it are done.

    Sixteen threads that wait for one lock hold each other up, and the last to come may be served
    first; waiting here costs nothing, and nobody waits longer than the others.
    """
    if serving.turn is None:
        serving.turn = CapacityLimiter(1)
    return await to_thread.run_sync(partial(act, *args, **kwargs), limiter=serving.turn)
