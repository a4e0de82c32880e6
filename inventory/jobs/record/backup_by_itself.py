"""Backups nobody asked for: before a store is brought up to date, and after so many acts."""

from __future__ import annotations

import logging
import threading
import time
from datetime import UTC, datetime
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError
from inventory.jobs.record.backup import EVERY, back_up
from inventory.store.opening.address import is_file
from inventory.store.settings import setting

if TYPE_CHECKING:
    from inventory.store.opening.database import Store

USUALLY_EVERY = 200
"""Acts, for a store in a file; a server is backed up by whoever runs it, unless they say so."""
_REST = 150
"""A backup by itself waits for so many times as long as the last one took: scans that come while
one is made take longer, and fewer than one in a hundred shall."""
_LONGEST_REST = 1800.0
"""Seconds; however long one takes, the next comes after half an hour of work."""

_log = logging.getLogger("kitwright")


class _Turn:
    """One backup at a time in this process."""

    taken = threading.Lock()
    not_before = 0.0


def before_upgrade(store: Store, schema: int) -> None:
    """Back a store of an older schema up; without a backup it isn't brought up to date."""
    made = back_up(store, _now())
    _log.warning("the store of schema %s was backed up first: %s", schema, made.path)


def after_act(store: Store, number: int) -> threading.Thread | None:
    """Begin a backup beside the work where act `number` is one after which it is due."""
    try:
        every = _every(store)
    except InventoryError as error:  # the act itself is stored: only say it
        _log.warning("no backup was made: %s (%s)", error.what, error.where)
        return None
    if not every or number % every:
        return None
    if time.monotonic() < _Turn.not_before or not _Turn.taken.acquire(blocking=False):
        return None
    thread = threading.Thread(target=_beside_the_work, args=(store,), name="backup")
    thread.start()
    return thread


def _every(store: Store) -> int:
    with store.reading() as db:
        chosen = setting(db, EVERY)
    return int(chosen) if chosen else USUALLY_EVERY * is_file(store.address)


def _beside_the_work(store: Store) -> None:
    began = time.monotonic()
    try:
        back_up(store, _now())
    except InventoryError as error:  # the act itself is stored: only say it
        _log.warning("no backup was made: %s (%s)", error.what, error.where)
    finally:
        ended = time.monotonic()
        _Turn.not_before = ended + min(_REST * (ended - began), _LONGEST_REST)
        _Turn.taken.release()


def _now() -> datetime:
    return datetime.now(UTC).replace(microsecond=0)
