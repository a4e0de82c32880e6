"""Where a store lies: a file of SQLite, or the address of a PostgreSQL database."""

from __future__ import annotations

from pathlib import Path
from urllib.parse import quote

from sqlalchemy import URL, make_url


def is_file(address: str) -> bool:
    """Say whether the address is a path of this computer."""
    return not address.startswith(("postgresql://", "postgresql+psycopg://"))


def url(address: str) -> URL:
    """Return the engine's URL; a file opens only if it is there (`mode=rw`).

    The path goes through `quote`: a folder named `a b%#?` would otherwise open another file.
    """
    if not is_file(address):
        return make_url(address).set(drivername="postgresql+psycopg")
    path = Path(address).expanduser().resolve()
    return URL.create(
        "sqlite", database="file:" + quote(str(path)), query={"mode": "rw", "uri": "true"}
    )


def shown(address: str) -> str:
    """Return the address as a message may show it: no password."""
    return address if is_file(address) else make_url(address).render_as_string(hide_password=True)
