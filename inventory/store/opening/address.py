"""Where a store lies: a file of SQLite, or the address of a PostgreSQL database."""

from __future__ import annotations

from pathlib import Path
from urllib.parse import quote

from sqlalchemy import URL, make_url
from sqlalchemy.exc import ArgumentError

from inventory.core.errors import NoStoreError, StoreError


def is_file(address: str) -> bool:
    """Say whether the address is a path of this computer."""
    return not address.startswith(("postgresql://", "postgresql+psycopg://"))


def path_of(address: str) -> Path:
    """Return the path of a store that is a file."""
    try:
        return Path(address).expanduser().resolve()
    except (OSError, RuntimeError, ValueError) as error:  # NUL, a loop of links, no such home
        raise NoStoreError(
            "this can't be the path of a store", where=repr(address), remedy="Name another path."
        ) from error


def url(address: str, mode: str = "rw") -> URL:
    """Return the engine's URL; a file opens only if it is there (`mode=rw`, or `ro` to look).

    The path goes through `quote`: a folder named `a b%#?` would otherwise open another file.
    """
    if is_file(address):
        return _file_url(address, mode)
    try:
        return make_url(address).set(drivername="postgresql+psycopg")
    except (ArgumentError, ValueError) as error:
        raise StoreError(
            "this isn't the address of a PostgreSQL database",
            where="--store",
            remedy="Write it as postgresql://USER@HOST/DATABASE.",
        ) from error


def _file_url(address: str, mode: str) -> URL:
    return URL.create(
        "sqlite",
        database="file:" + quote(str(path_of(address))),
        query={"mode": mode, "uri": "true"},
    )


def shown(address: str) -> str:
    """Return the address as a message may show it: no password."""
    return address if is_file(address) else make_url(address).render_as_string(hide_password=True)
