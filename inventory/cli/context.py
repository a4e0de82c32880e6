"""What all commands share: which store and kit, who acts, on which day."""

from __future__ import annotations

import os
import uuid
from dataclasses import dataclass
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING, Annotated

import typer

from inventory.core.errors import InventoryError

if TYPE_CHECKING:
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench
    from inventory.jobs.stores import Store

COMMON = ("--store", "--kit", "--by", "--on", "--device", "--paper")
"""Options of every command; they may stand anywhere on the line."""


@dataclass(slots=True)
class Context:
    """The options of every command, as they were typed."""

    store: str = ""
    kit: str = ""
    by: str = ""
    on: str = ""
    device: str = ""
    paper: str = ""


typed = Context()


def take_common(
    store: Annotated[str, typer.Option(metavar="FILE", help="Where the store lies.")] = "",
    kit: Annotated[str, typer.Option(metavar="NAME", help="Which kit, if there are several.")] = "",
    by: Annotated[str, typer.Option(metavar="PERSON", help="Who does it.")] = "",
    on: Annotated[str, typer.Option(metavar="DATE", help="The day it happened: 2026-03-14.")] = "",
    device: Annotated[str, typer.Option(metavar="NAME", help="Which scanner or phone.")] = "",
    paper: Annotated[str, typer.Option(metavar="SIZE", help="Paper: a4 or letter.")] = "",
) -> None:
    """Keep the options that every command takes."""
    typed.store, typed.kit, typed.by, typed.on, typed.device = store, kit, by, on, device
    typed.paper = paper


def address() -> str:
    """Return where the store lies: `--store`, else KITWRIGHT_STORE, else the user's own folder."""
    named = typed.store or os.environ.get("KITWRIGHT_STORE", "")
    if named:
        return named
    from platformdirs import user_data_path

    return str(user_data_path("kitwright", appauthor=False) / "kits.kitwright")


def open_bench() -> Bench:
    """Open the store and the kit that are meant."""
    from inventory.jobs.acts import Bench
    from inventory.jobs.kits import choose_kit

    store = open_store()
    return Bench(store, choose_kit(store, typed.kit or os.environ.get("KITWRIGHT_KIT", "")))


def open_store() -> Store:
    """Open the store that is meant."""
    from inventory.jobs import stores

    return stores.open_store(address())


def new_slip(note: str = "") -> Slip:
    """Return a slip for an act that happens now, or on the day of `--on`."""
    from inventory.core.record.slips import Slip

    now = datetime.now(UTC).replace(microsecond=0)
    return Slip(
        key=uuid.uuid4().hex,
        recorded_at=now,
        happened_on=happened_on(now.astimezone().date()),
        person=typed.by or os.environ.get("KITWRIGHT_BY", ""),
        device=typed.device,
        note=note,
    )


def happened_on(today: date) -> date:
    """Return the day of `--on`; a day still to come is refused."""
    if not typed.on:
        return today
    try:
        day = date.fromisoformat(typed.on)
    except ValueError:
        raise InventoryError(
            f"{typed.on!r} is no date", where="--on", remedy="Write it as 2026-03-14."
        ) from None
    if day > today:
        raise InventoryError(
            f"{day} is still to come", where="--on", remedy="Give a day up to today."
        )
    return day
