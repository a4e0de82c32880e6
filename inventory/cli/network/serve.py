"""The command that serves the pages on this computer or on the local network."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from inventory.cli import context
from inventory.cli.show import note, say
from inventory.core.errors import InventoryError
from inventory.core.plain import plain

if TYPE_CHECKING:
    import socket
    from collections.abc import Callable

    from inventory.jobs.devices import Device
    from inventory.web.serving import Serving

PLAIN_HTTP = (
    "By plain http everybody on this network can read and change what phones send. On a network "
    "you share, serve with --tls, or let a phone make a hotspot of its own."
)
TRUST = (
    "Phones ask whether to trust this computer. For the live camera and for opening pages while "
    "offline, install {file} on the phone as a trusted certificate, compare its fingerprint, and "
    "remove it when the kit is built: who has its key could pretend to be any site to that phone."
)


def add_to(app: typer.Typer) -> None:
    """Put the command into the tree."""
    app.command("serve")(serve)


Host = Annotated[str, typer.Option(metavar="ADDRESS", help="Address or name of this computer.")]
# A text, since Typer loads a library to check a number, for a tenth of the time to begin serving.
Port = Annotated[str, typer.Option(metavar="PORT", help="0 takes any free one.")]
MOST_PORT = 65_535
Certificates = Annotated[
    Path | None, typer.Option(metavar="FOLDER", help="Where --tls keeps its keys.")
]
Lan = Annotated[bool, typer.Option("--lan", help="Let phones on this network in.")]
Tls = Annotated[bool, typer.Option("--tls", help="By https, with a certificate of ours.")]


def serve(
    host: Host = "",
    port: Port = "8737",
    certificates: Certificates = None,
    *,
    lan: Lan = False,
    tls: Tls = False,
) -> None:
    """Serve pages for phones and this computer's browser; each device is paired first.

    Without --lan only this computer itself is answered. Ctrl-C ends; Enter shows a code for one
    more device.

    Example: kitwright serve --lan
    """
    from inventory.web.lan import LOOPBACK, is_loopback, lan_address, one_address
    from inventory.web.serving import Serving

    if host and not lan and not is_loopback(host):
        raise InventoryError(
            f"{host} can be reached from the network", remedy="Say --lan if that is meant."
        )
    wanted = _number_of(port)
    bound = one_address(host) if host else lan_address() if lan else LOOPBACK
    store = context.open_store()
    listening = _listening(bound, wanted)
    serving = Serving(
        store=store,
        hosts=frozenset({bound, *(["localhost"] if is_loopback(bound) else [])}),
        port=listening.getsockname()[1],
        secure=tls,
        paired=_tell_paired,
    )
    keys = _keys(certificates, bound) if tls else None
    _say_where(serving, bound, shared=lan)
    _run(serving, listening, keys, lambda: _say_where(serving, bound, shared=lan))


def _number_of(port: str) -> int:
    plain_number = port.isascii() and port.isdecimal() and len(port) <= len(str(MOST_PORT))
    if not plain_number or int(port) > MOST_PORT:
        raise typer.BadParameter(f"{port!r} isn't 0 to {MOST_PORT}.", param_hint="'--port'")
    return int(port)


def _listening(host: str, port: int) -> socket.socket:
    """Take the port before anything is shown, so that what is shown is true."""
    import socket

    # Named as TCP, or asyncio leaves small packets waiting: 40 ms for each answer.
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    made = socket.socket(family, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    made.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        made.bind((host, port))
        made.listen(100)  # who opens the address before the server is ready, waits
    except OSError as error:
        made.close()
        raise InventoryError(
            f"port {port} of {host} can't be used: {error.strerror}",
            remedy="Is it served already? Else name another one with --port.",
        ) from error
    return made


def _say_where(serving: Serving, host: str, *, shared: bool) -> None:
    from inventory.jobs.devices import invitation

    token = invitation(serving.store, serving.now())
    shown = f"[{host}]" if ":" in host else host
    address = f"{serving.scheme}://{shown}:{serving.port}/pair#t={token}"
    if shared and sys.stdout.isatty():
        _draw(address)
    say(f"open {address}")
    sys.stdout.flush()
    note("the code lets one device in, once, within ten minutes; Enter shows another")
    if shared and not serving.secure:
        note(PLAIN_HTTP)


def _draw(address: str) -> None:
    """Draw the address for a phone's camera."""
    from inventory.cli.bench.verdict import wants_colour
    from inventory.documents.address_code import code_blocks

    on, off = ("\x1b[97;40m", "\x1b[0m") if wants_colour(at_terminal=True) else ("", "")
    for line in code_blocks(address).splitlines():
        say(f"{on}{line}{off}")


def _keys(folder: Path | None, host: str) -> Path:
    from platformdirs import user_data_path

    from inventory.web.certificates import certificates

    kept = certificates(
        folder or user_data_path("kitwright", appauthor=False) / "certificates",
        [host, "localhost"] if host == "127.0.0.1" else [host],
    )
    note(TRUST.format(file=kept.authority))
    note(f"its fingerprint (SHA-256): {kept.fingerprint}")
    return kept.server


def _tell_paired(device: Device) -> None:
    """Say with a bell that a device came in: nobody pairs unnoticed."""
    whom = f" ({plain(device.person)})" if device.person else ""
    note(f"\apaired: {plain(device.name)}{whom}; shut it out: kitwright devices revoke {device.id}")


def _run(
    serving: Serving, listening: socket.socket, keys: Path | None, invite: Callable[[], None]
) -> None:
    import threading

    import uvicorn

    from inventory.web.app import make_app

    def invite_more() -> None:
        for _ in sys.stdin:
            invite()

    if sys.stdin.isatty():
        threading.Thread(target=invite_more, daemon=True).start()
    config = uvicorn.Config(
        make_app(serving),
        ssl_certfile=keys,
        access_log=False,
        log_level="warning",
        server_header=False,
        timeout_graceful_shutdown=2,
    )
    server = uvicorn.Server(config)
    serving.ending = lambda: server.should_exit
    server.run(sockets=[listening])
    if server.should_exit:  # its own word of a Ctrl-C is lost where the loop ends at that moment
        raise KeyboardInterrupt
