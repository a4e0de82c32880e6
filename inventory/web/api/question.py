"""What a question of the open interface is made of."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from inventory.core.frozen import frozen

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from inventory.web.api.shapes import Shape
    from inventory.web.visit import Visit


@frozen
class Question:
    """One question: its name, what it takes, and the shape of its answer."""

    name: str
    summary: str
    takes: Mapping[str, str]
    """Name of each parameter, and what it means."""
    shape: Shape
    answer: Callable[[Visit, Mapping[str, str]], Any]
    needed: tuple[str, ...] = ()
