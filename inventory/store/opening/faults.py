"""What the database says, in the words of a refusal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.errors import (
    AlreadyDoneError,
    InventoryError,
    NotEnoughError,
    StoreError,
    TryAgainError,
)

if TYPE_CHECKING:
    from sqlalchemy.exc import DBAPIError

_DAMAGED = (
    "Don't write to it. Run `kitwright verify`, then `kitwright restore` a backup. "
    "What can still be read: `kitwright export --what-reads`."
)
_BY_NAME = {
    "SQLITE_FULL": (
        "the disk is full; this act was not recorded",
        "Free some space, then do it again. All that was recorded before is safe.",
    ),
    "SQLITE_READONLY": (
        "the store can only be read here",
        "Check who owns the file and its folder, and that the disk isn't write-protected.",
    ),
    "SQLITE_BUSY": (
        "another window or program is writing to the store",
        "Try again in a moment; if it goes on, close the other program.",
    ),
    "SQLITE_LOCKED": (
        "another window or program is writing to the store",
        "Try again in a moment; if it goes on, close the other program.",
    ),
    "SQLITE_CORRUPT": (
        "the store is damaged",
        _DAMAGED,
    ),
    "SQLITE_NOTADB": (
        "the file isn't a Kitwright store",
        "Name the store with --store, or begin one with `kitwright kit new`.",
    ),
    "SQLITE_CANTOPEN": (
        "there is no store here, or it can't be opened",
        "Begin one with `kitwright kit new`, or name another with --store.",
    ),
    "SQLITE_IOERR": (
        "the disk could not be written or read; this act was not recorded",
        "Check the disk and the free space, then do it again.",
    ),
    "SQLITE_TOOBIG": ("the text is too long to be stored", "Shorten it."),
}


_LOST = {"OperationalError", "AdminShutdown", "CrashShutdown", "CannotConnectNow"}
"""Names of psycopg's errors for a server that is gone."""

_IN_BETWEEN = {"40001": "serialization failure", "40P01": "deadlock", "55P03": "lock"}
"""PostgreSQL's codes for an act that lost against another one (its manual, appendix A)."""


def refusal(error: DBAPIError, address: str) -> InventoryError | None:
    """Return the refusal that a database error means, or None where it is a fault of ours."""
    by_rule = _by_rule(str(error.orig))
    if by_rule is not None:
        return by_rule
    name = getattr(error.orig, "sqlite_errorname", "")
    for known, (what, remedy) in _BY_NAME.items():
        if name.startswith(known):
            return StoreError(what, where=address, remedy=remedy)
    if getattr(error.orig, "sqlstate", None) in _IN_BETWEEN:
        return TryAgainError(
            "another act came in between; this one was not recorded",
            where=address,
            remedy="Do it again.",
        )
    if not name and (error.connection_invalidated or type(error.orig).__name__ in _LOST):
        return TryAgainError(
            "the database can't be reached; what was under way may not have been recorded",
            where=address,
            remedy="Check the connection, then do it again: the same slip is recorded once.",
        )
    return None


def _by_rule(text: str) -> InventoryError | None:
    if "below zero" in text:
        return NotEnoughError("more was asked for than lies there", remedy="Look where it lies.")
    if "append only: slip kit undoes" in text or "uq_slip_kit_undoes" in text:
        return AlreadyDoneError("this act is undone already")
    if "append only" in text:
        return StoreError("records are never changed; a mistake is undone by a new record")
    return None
