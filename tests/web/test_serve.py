"""The command that serves: loopback by default, one address by name, https of our own."""

from __future__ import annotations

import os
import re
import signal
import socket
import ssl
import stat
import subprocess
import sys
from contextlib import contextmanager
from typing import TYPE_CHECKING

import httpx2
import pytest

from inventory.cli.exits import Exit
from inventory.core.errors import InventoryError
from inventory.web.certificates import certificates
from inventory.web.lan import is_loopback, lan_address, one_address

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from inventory.jobs.acts import Bench
    from tests.web.conftest import House


@contextmanager
def serving(store: str, *options: str) -> Iterator[tuple[subprocess.Popen[str], str]]:
    """Run the command; give it and the address that it shows."""
    command = [sys.executable, "-m", "inventory", "--store", store, "serve", "--port", "0"]
    with subprocess.Popen(
        [*command, *options],
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env={**os.environ, "TERM": "dumb"},
    ) as running:
        assert running.stdout is not None
        yield running, running.stdout.readline().removeprefix("open ").strip()
        running.kill()


def told(store: str, *options: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "inventory", "--store", store, *options]
    return subprocess.run(command, capture_output=True, text=True, check=False, timeout=60)


def pair(client: httpx2.Client, address: str) -> httpx2.Response:
    origin, _, token = address.partition("/pair#t=")
    form = {"token": token, "name": "phone", "person": "Ana"}
    return client.post(f"{origin}/pair", data=form, headers={"Origin": origin})


def test_served_to_this_computer_alone_and_ended_by_ctrl_c(sqlite_bench: Bench) -> None:
    store = sqlite_bench.store.address
    with serving(store) as (running, address), httpx2.Client() as client:
        assert re.fullmatch(r"http://127\.0\.0\.1:\d+/pair#t=[\w-]{22}", address)
        assert pair(client, address).status_code == 303
        origin = address.partition("/pair")[0]
        assert "Tarn T2" in client.get(f"{origin}/T2/").text
        with client.stream("GET", f"{origin}/api/v1/T2/events"):
            running.send_signal(signal.SIGINT)
            _, err = running.communicate(timeout=30)
    assert running.returncode == Exit.INTERRUPTED
    assert "\apaired: phone (Ana); shut it out: kitwright devices revoke 1" in err
    assert "Traceback" not in err
    listed = told(store, "devices", "list")
    assert "phone" in listed.stdout
    assert "Ana" in listed.stdout


def test_address_of_the_network_must_be_meant(sqlite_bench: Bench) -> None:
    refused = told(sqlite_bench.store.address, "serve", "--host", "192.0.2.7")
    assert refused.returncode == Exit.REFUSED
    assert "Say --lan if that is meant" in refused.stderr
    everywhere = told(sqlite_bench.store.address, "serve", "--lan", "--host", "::")
    assert everywhere.returncode == Exit.REFUSED
    assert "stands for every network" in everywhere.stderr


def test_taken_port_is_refused_before_anything_is_shown(sqlite_bench: Bench) -> None:
    with socket.create_server(("127.0.0.1", 0)) as other:
        port = str(other.getsockname()[1])
        refused = told(sqlite_bench.store.address, "serve", "--port", port)
    assert refused.returncode == Exit.REFUSED
    assert refused.stdout == ""
    assert f"port {port} of 127.0.0.1 can't be used" in refused.stderr


def test_without_a_store_nothing_is_served(tmp_path: Path) -> None:
    assert told(str(tmp_path / "none"), "serve").returncode == Exit.NO_STORE


def test_plain_http_on_a_network_is_warned_of(sqlite_bench: Bench) -> None:
    with serving(sqlite_bench.store.address, "--lan", "--host", "127.0.0.1") as (running, _):
        assert running.stderr is not None
        said = running.stderr.readline() + running.stderr.readline()
    assert "everybody on this network can read and change what phones send" in said


def test_https_is_trusted_by_who_trusts_the_authority_alone(
    sqlite_bench: Bench, tmp_path: Path
) -> None:
    keys = tmp_path / "keys"
    options = ("--tls", "--certificates", str(keys))
    with serving(sqlite_bench.store.address, *options) as (running, address):
        assert address.startswith("https://127.0.0.1:")
        trusting = ssl.create_default_context(cafile=keys / "kitwright-authority.pem")
        with httpx2.Client(verify=trusting) as client:
            paired = pair(client, address)
            assert "; secure" in paired.headers["set-cookie"].lower()
        with httpx2.Client() as client, pytest.raises(httpx2.ConnectError):
            pair(client, address)
        assert running.stderr is not None
        said = running.stderr.readline() + running.stderr.readline()
    assert "remove it when the kit is built" in said
    assert "fingerprint (SHA-256): " in said


def test_authority_is_made_once_and_for_its_owner_alone(tmp_path: Path) -> None:
    folder = tmp_path / "keys"
    first = certificates(folder, ["192.0.2.7"])
    second = certificates(folder, ["192.0.2.8", "bench.example"])
    assert first.fingerprint == second.fingerprint
    assert re.fullmatch(r"(?:[0-9A-F]{2}:){31}[0-9A-F]{2}", first.fingerprint)
    modes = {stat.S_IMODE(path.stat().st_mode) for path in folder.iterdir()}
    assert modes == {0o600}
    assert stat.S_IMODE(folder.stat().st_mode) == 0o700


def test_folder_that_cant_be_written_is_named(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    with pytest.raises(InventoryError, match="the certificate can't be kept"):
        certificates(tmp_path / "file" / "keys", ["192.0.2.7"])


@pytest.mark.parametrize(
    ("host", "loopback"),
    [
        ("127.0.0.1", True),
        ("127.8.8.8", True),
        ("::1", True),
        ("localhost", True),
        ("192.0.2.7", False),
        ("bench.example", False),
        ("::", False),
    ],
)
def test_loopback_is_known(host: str, loopback: bool) -> None:  # noqa: FBT001
    assert is_loopback(host) is loopback


@pytest.mark.parametrize("host", ["0" + ".0.0.0", "::"])
def test_all_networks_at_once_are_refused(host: str) -> None:
    with pytest.raises(InventoryError):
        one_address(host)
    assert one_address("bench.example") == "bench.example"


def test_computer_without_a_network_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    def unreachable(*_: object) -> None:
        raise OSError

    monkeypatch.setattr(socket.socket, "connect", unreachable)
    with pytest.raises(InventoryError, match="on no network"):
        lan_address()


def test_device_is_shut_out_by_its_number(house: House) -> None:
    house.phone("tablet", "Ben")
    store = house.bench.store.address
    assert told(store, "devices", "revoke", "1").stdout == "tablet is shut out\n"
    again = told(store, "devices", "revoke", "1")
    assert again.returncode == Exit.REFUSED
    assert "no device 1 may act here" in again.stderr
    assert '"revoked_at": "20' in told(store, "devices", "list", "--json").stdout


@pytest.mark.parametrize("port", ["65536", "-1", "8e3", "", "9" * 5000])
def test_what_is_no_port_is_wrong_use(sqlite_bench: Bench, port: str) -> None:
    ended = told(sqlite_bench.store.address, "serve", "--port", port)
    assert ended.returncode == Exit.WRONG_USE
    assert "isn't 0 to 65535" in ended.stderr
