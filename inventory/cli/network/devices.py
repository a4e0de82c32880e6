"""Commands for the phones and computers that may act over the network."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Annotated

import typer

from inventory.cli import context
from inventory.cli.options import Json
from inventory.cli.show import document, say, table
from inventory.cli.table import Column
from inventory.core.plain import plain

group = typer.Typer(no_args_is_help=True, help="List paired phones, and shut them out.")


def add_to(app: typer.Typer) -> None:
    """Put the commands into the tree."""
    app.add_typer(group, name="devices")


@group.command("list")
def list_(*, json: Json = False) -> None:
    """List all devices that were ever paired.

    Example: kitwright devices list
    """
    from inventory.jobs.devices import devices

    found = devices(context.open_store())
    if json:
        document("devices", found)
        return
    if not found:
        say("no device was ever paired: kitwright serve --lan")
        return
    columns = [
        Column("device", number=True), Column("name", words=True), Column("held by", words=True),
        Column("paired"), Column("shut out"),
    ]  # fmt: skip
    table(
        columns,
        [
            (each.id, each.name, each.person, each.paired_at[:10], each.revoked_at[:10])
            for each in found
        ],
    )


@group.command("revoke")
def revoke(
    device: Annotated[int, typer.Argument(metavar="DEVICE", help="Its number in the list.")],
) -> None:
    """Shut a device out; what it recorded stays.

    Example: kitwright devices revoke 2
    """
    from inventory.jobs.devices import revoke as revoke_

    gone = revoke_(context.open_store(), device, datetime.now(UTC).replace(microsecond=0))
    say(f"{plain(gone.name)} is shut out")
