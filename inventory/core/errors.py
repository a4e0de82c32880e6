"""What can be wrong with a list, and what an act can be refused for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.counted import counted
from inventory.core.frozen import frozen

if TYPE_CHECKING:
    from collections.abc import Sequence


@frozen
class Problem:
    """Something in a file that a person must settle before it is taken in."""

    what: str
    where: str
    remedy: str

    def __str__(self) -> str:
        """One line for a terminal or a page."""
        return f"{self.where}: {self.what}. {self.remedy}"


class InventoryError(Exception):
    """An act that was refused; nothing was written."""

    def __init__(self, what: str, *, where: str = "", remedy: str = "") -> None:
        super().__init__(what)
        self.what = what
        self.where = where
        self.remedy = remedy


class NotFoundError(InventoryError):
    """The part, bin, crate or step isn't in the record."""


class NotEnoughError(InventoryError):
    """More was asked for than lies there."""


class AlreadyDoneError(InventoryError):
    """The same slip was recorded before: the act is done already."""


class SlipConflictError(InventoryError):
    """The same slip came again with another content."""


class StoreError(InventoryError):
    """The store can't be opened, or can't be written to."""


class TryAgainError(StoreError):
    """Another act or a lost connection came in between; the same slip may be sent again."""


class NoStoreError(StoreError):
    """There is nothing at the store's address."""


class ProblemsError(InventoryError):
    """A file holds problems; nothing of it was stored."""

    def __init__(self, what: str, problems: Sequence[Problem], *, remedy: str = "") -> None:
        super().__init__(what, remedy=remedy)
        self.problems = tuple(problems)


def problems_in(source: str, problems: Sequence[Problem], remedy: str) -> ProblemsError:
    """Return the refusal of a whole file for what its rows hold."""
    held = counted(len(problems), "problem")
    return ProblemsError(f"{source} holds {held}; nothing was stored", problems, remedy=remedy)
