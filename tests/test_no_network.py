"""A day at the bench with every way to a network barred."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
BARRED = """
import sys

def bar(event, _):
    if event in {"socket.connect", "socket.bind", "socket.getaddrinfo", "socket.gethostbyname",
                 "socket.sendto", "socket.sendmsg"}:
        sys.stderr.write(f"NETWORK {event}\\n")
        raise OSError(event)

sys.addaudithook(bar)
from inventory.cli.app import run
for line in sys.stdin.read().splitlines():
    if code := run(line.split()):
        sys.exit(code)
"""
DAY = """\
kit new Tarn --code T2
bin add B-07
bin put T2-1 4 --from opening --to B-07
where T2-1
labels bins -o bins.pdf
history
backup
export -o out
verify
"""


def barred(script: str, lines: str, folder: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-c", script],
        input=lines,
        capture_output=True,
        text=True,
        cwd=folder,
        check=False,
        env={"KITWRIGHT_STORE": "kits.kitwright", "PYTHONPATH": str(ROOT), "PATH": "/usr/bin:/bin"},
    )


def test_a_day_at_the_bench_needs_no_network(tmp_path: Path) -> None:
    ended = barred(BARRED, DAY, tmp_path)
    assert "NETWORK" not in ended.stderr
    assert (ended.returncode, ended.stderr.count("error:")) == (0, 0), ended.stderr
    assert (tmp_path / "out" / "record.jsonl").is_file()


@pytest.mark.parametrize(
    "asking",
    [
        "import urllib.request; urllib.request.urlopen('http://192.0.2.1/')",  # RFC 5737: nobody's
        "import socket; socket.getaddrinfo('example.invalid', 80)",
    ],
)
def test_a_program_that_asks_the_network_would_be_noticed(asking: str, tmp_path: Path) -> None:
    """The twin: the bar is there."""
    script = BARRED.replace("from inventory.cli.app import run", asking)
    assert "NETWORK socket." in barred(script, "", tmp_path).stderr
