"""Stores for the tests: migrated once, copied for each test, on SQLite and on PostgreSQL."""

from __future__ import annotations

import shutil
import signal
from contextlib import suppress
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING

import pytest
from hypothesis import settings

from inventory.core.record.slips import Slip
from inventory.jobs.acts import Bench
from inventory.jobs.kits import begin_kit
from inventory.store.opening.database import begin_store, open_store
from tests.kits_apart import kits_kept_apart
from tests.postgres import running_server

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from inventory.store.opening.database import Store
    from tests.postgres import Server

# How long one example takes says nothing on a machine that does other work, too.
settings.register_profile("kitwright", deadline=None)
settings.load_profile("kitwright")

# In the background of a shell Ctrl-C is ignored, and would be by all that the tests start.
if signal.getsignal(signal.SIGINT) is signal.SIG_IGN:
    with suppress(ValueError):  # not the main thread
        signal.signal(signal.SIGINT, signal.default_int_handler)

NOW = datetime(2026, 11, 25, 10, 0, tzinfo=UTC)


def slip(key: str, note: str = "", person: str = "Ada", asked: str = "") -> Slip:
    """Return a slip of the test's one day."""
    day = date(2026, 11, 25)
    return Slip(key=key, recorded_at=NOW, happened_on=day, person=person, note=note, asked=asked)


@pytest.fixture(scope="session", autouse=True)
def _folder_of_no_user(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """Keep tests out of the folder of whoever runs them."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("XDG_DATA_HOME", str(tmp_path_factory.mktemp("home")))
        yield


@pytest.fixture(scope="session", autouse=True)
def _kits_apart() -> Iterator[None]:
    yield from kits_kept_apart()


@pytest.fixture(scope="session")
def postgresql(testrun_uid: str) -> Iterator[Server]:
    with running_server(testrun_uid) as server:
        yield server


@pytest.fixture(scope="session")
def migrated_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("migrated") / "empty.kitwright"
    begin_store(str(path)).close()
    return path


@pytest.fixture
def sqlite_address(tmp_path: Path, migrated_file: Path) -> str:
    """Return the address of an empty store in a file of its own."""
    return str(shutil.copy(migrated_file, tmp_path / "store.kitwright"))


@pytest.fixture
def postgresql_address(postgresql: Server) -> Iterator[str]:
    """Return the address of an empty store in a database of its own."""
    address = postgresql.migrated()
    yield address
    postgresql.drop(address)


@pytest.fixture(params=["sqlite", "postgresql"])
def address(request: pytest.FixtureRequest) -> str:
    """Return the address of an empty store, on each database in turn."""
    return str(request.getfixturevalue(f"{request.param}_address"))


@pytest.fixture
def store(address: str) -> Iterator[Store]:
    """Open an empty store, on each database in turn."""
    opened = open_store(address)
    yield opened
    opened.close()


@pytest.fixture
def sqlite_store(sqlite_address: str) -> Iterator[Store]:
    """Open an empty store in a file."""
    opened = open_store(sqlite_address)
    yield opened
    opened.close()


@pytest.fixture
def bench(store: Store) -> Bench:
    """Begin a kit in an empty store, on each database in turn."""
    return Bench(store, begin_kit(store, "Tarn T2", "T2", NOW))


@pytest.fixture
def sqlite_bench(sqlite_store: Store) -> Bench:
    """Begin a kit in an empty store in a file."""
    return Bench(sqlite_store, begin_kit(sqlite_store, "Tarn T2", "T2", NOW))
