"""What the database says, in the words of a refusal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.errors import (
    AlreadyDoneError,
    InventoryError,
    NotEnoughError,
    StoreError,
)

if TYPE_CHECKING:
    from sqlalchemy.exc import DBAPIError

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
        "Do not write to it. Run `kitwright verify`, then `kitwright restore` a backup.",
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


def refusal(error: DBAPIError, address: str) -> InventoryError | None:
    """Return the refusal that a database error means, or None where it is a fault of ours."""
    text = str(error.orig)
    if "below zero" in text:
        return NotEnoughError("more was asked for than lies there", remedy="Look where it lies.")
    if "append only" in text:
        return StoreError("records are never changed; a mistake is undone by a new record")
    if "uq_slip_kit_undoes" in text or "slip.kit, slip.undoes" in text:
        return AlreadyDoneError("this act is undone already")
    name = getattr(error.orig, "sqlite_errorname", "")
    for known, (what, remedy) in _BY_NAME.items():
        if name.startswith(known):
            return StoreError(what, where=address, remedy=remedy)
    if error.connection_invalidated or type(error.orig).__name__ == "OperationalError":
        return StoreError(
            "the database could not be reached; this act may not have been recorded",
            where=address,
            remedy="Check the connection, then do it again: the same slip is recorded once.",
        )
    return None
