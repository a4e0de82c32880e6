"""All jobs against a small model in memory, on SQLite and on PostgreSQL.

    python -m tests.jobs.test_model 10000

runs so many steps on each database and prints how many of them were acts.
"""

from __future__ import annotations

import shutil
import sys
import tempfile
import uuid
from pathlib import Path
from typing import TYPE_CHECKING

from hypothesis import HealthCheck, settings
from hypothesis.stateful import (
    run_state_machine_as_test,
)

from inventory.core.items import Item
from inventory.store.opening.database import begin_store
from tests.jobs.model import (
    BINS,
    KINDS,
)
from tests.postgres import running_server

if TYPE_CHECKING:
    from tests.postgres import Server

from tests.jobs.model_workshop import Workshop


def on_sqlite(folder: Path, migrated: Path) -> type[Workshop]:
    def begin() -> str:
        return str(shutil.copy(migrated, folder / f"{uuid.uuid4().hex}.kitwright"))

    return type("OnSqlite", (Workshop,), {"begin": staticmethod(begin), "end": staticmethod(rid)})


def rid(address: str) -> None:
    Path(address).unlink()


def on_postgresql(server: Server) -> type[Workshop]:
    methods = {"begin": staticmethod(server.migrated), "end": staticmethod(server.drop)}
    return type("OnPostgresql", (Workshop,), methods)


def tried(machine: type[Workshop], examples: int, steps_each: int) -> None:
    run_state_machine_as_test(
        machine,
        settings=settings(
            max_examples=examples,
            stateful_step_count=steps_each,
            deadline=None,
            suppress_health_check=list(HealthCheck),
        ),
    )


def test_an_act_that_moved_pieces_on_and_on_is_undone_whole(
    tmp_path: Path, migrated_file: Path
) -> None:
    """Found by the model: the way back was judged by where pieces lay before its first move."""
    workshop = on_sqlite(tmp_path, migrated_file)()
    workshop.open()
    first, second, bench = BINS
    workshop.put_in(kind=KINDS[0], pieces=4, bin_=first, worked=False)
    workshop.put_on_and_on(kind=KINDS[0], pieces=4, way=[first, second, bench])
    workshop.undo(back=0)
    workshop.agrees()
    assert workshop.model.lies(first, Item(*KINDS[0])) == 4
    workshop.teardown()


def test_all_jobs_agree_with_the_model_on_sqlite(tmp_path: Path, migrated_file: Path) -> None:
    tried(on_sqlite(tmp_path, migrated_file), examples=8, steps_each=25)


def test_all_jobs_agree_with_the_model_on_postgresql(postgresql: Server) -> None:
    tried(on_postgresql(postgresql), examples=4, steps_each=25)


def main(wanted: int) -> None:
    each = 50
    with tempfile.TemporaryDirectory() as place, running_server(uuid.uuid4().hex) as server:
        migrated = Path(place) / "empty"
        begin_store(str(migrated)).close()
        for name, machine in (
            ("sqlite", on_sqlite(Path(place), migrated)),
            ("postgresql", on_postgresql(server)),
        ):
            tried(machine, wanted // each, each)
            sys.stdout.write(f"{name}: {wanted} steps, model and store agree\n")


if __name__ == "__main__":
    main(int(sys.argv[1]))
