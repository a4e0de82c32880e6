"""Tries the open interface against its own description with thousands of made-up requests.

Needs the `schemathesis` command, which isn't part of the test extra: install it into an
environment of its own and name it, for instance
`python -m tests.web.try_interface --command PATH/schemathesis --examples 50`.
"""

from __future__ import annotations

import argparse
import json
import os
import subprocess
import sys
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path
from tempfile import TemporaryDirectory

from inventory import __version__
from inventory.jobs.acts import Bench
from inventory.jobs.devices import invitation, pair
from inventory.jobs.kits import begin_kit
from inventory.store.opening.database import begin_store
from inventory.web.api.openapi import description
from tests.web.conftest import served, stock

CHECKS = (
    "not_a_server_error,status_code_conformance,content_type_conformance,"
    "response_schema_conformance,negative_data_rejection,ignored_auth"
)


def main() -> int:
    """Serve a stocked kit, run the trial, and return its exit code."""
    words = argparse.ArgumentParser(description=__doc__)
    words.add_argument("--command", default="schemathesis")
    words.add_argument("--examples", type=int, default=50)
    said = words.parse_args()
    memory = Path("/dev") / "shm"
    with TemporaryDirectory(dir=memory if memory.is_dir() else None) as folder:
        address = str(Path(folder) / "store.kitwright")
        now = datetime.now(UTC)
        with closing(begin_store(address)) as store:
            house = served(Bench(store, begin_kit(store, "Tarn T2", "T2", now)))
            stock(house)
            secret = pair(store, invitation(store, now), "trial", "Ana", now).secret
        settings = Path(folder) / "schemathesis.toml"
        settings.write_text(f'[auth.openapi.paired]\napi_key = "{secret}"\n')
        described = Path(folder) / "openapi.json"
        described.write_text(json.dumps(description(__version__, ["T2"])))
        command = [said.command, "--config-file", str(settings), "run", str(described)]
        return _tried(address, command, said.examples, folder)


def _tried(store: str, command: list[str], examples: int, folder: str) -> int:
    serve = [sys.executable, "-m", "inventory", "--store", store, "serve", "--port", "0"]
    with subprocess.Popen(
        serve, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, text=True, env={**os.environ}
    ) as serving:
        assert serving.stdout is not None
        origin = serving.stdout.readline().removeprefix("open ").partition("/pair")[0]
        tried = subprocess.run(
            [
                *(*command, "--url", origin, "--checks", CHECKS, "-H", f"Origin: {origin}"),
                *("-n", str(examples), "--phases", "examples,coverage,fuzzing", "--no-color"),
            ],
            cwd=folder,
            check=False,
        )
        serving.terminate()
    return tried.returncode


if __name__ == "__main__":
    sys.exit(main())
