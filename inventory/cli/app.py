"""The commands, and the one place where a refusal becomes an exit code."""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING

import typer
from typer.exceptions import TyperException

from inventory.cli import (
    bins,
    claims,
    context,
    crates,
    demo,
    history,
    kits,
    labels,
    packing_lists,
    plans,
    scan,
    shortages,
    steps,
    where,
)
from inventory.cli.exits import Exit, told
from inventory.core.errors import InventoryError
from inventory.core.plain import plain

if TYPE_CHECKING:
    from collections.abc import Sequence

app = typer.Typer(
    name="kitwright",
    no_args_is_help=True,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
    help=(
        "The stock record of an aircraft kit: crates counted against the packing list, bins with "
        "barcode labels, shortages before the work starts, parts scanned out to steps.\n\n"
        "Example: kitwright demo\n\n"
        "It records what people say. It never says that a part is good: the plans, the supplier, "
        "local rules and licensed practice decide."
    ),
    epilog=(
        "Every command takes, anywhere on the line: --store FILE (or KITWRIGHT_STORE), "
        "--kit NAME (KITWRIGHT_KIT), --by PERSON (KITWRIGHT_BY), --on DATE, --device NAME."
    ),
)
_GROUPS = (
    demo, kits, packing_lists, crates, claims, bins, where, labels, plans, shortages, steps, scan,
    history,
)  # fmt: skip
for group in _GROUPS:
    group.add_to(app)


@app.callback()
def common(  # noqa: D103 - its words would stand in the help
    store: str = typer.Option("", metavar="FILE", help="Where the store lies."),
    kit: str = typer.Option("", metavar="NAME", help="Which kit, if the store holds several."),
    by: str = typer.Option("", metavar="PERSON", help="Who does it."),
    on: str = typer.Option("", metavar="DATE", help="The day it happened, as 2026-03-14."),
    device: str = typer.Option("", metavar="NAME", help="The scanner or phone it is done with."),
) -> None:
    context.typed.store, context.typed.kit = store, kit
    context.typed.by, context.typed.on, context.typed.device = by, on, device


def run(arguments: Sequence[str]) -> int:
    """Run one command line; return its exit code."""
    try:
        ended = app(common_first(arguments), standalone_mode=False, prog_name="kitwright")
    except TyperException as error:
        return _wrong_use(error)
    except InventoryError as error:
        return told(error)
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return Exit.DONE
    except typer.Abort:
        ended = Exit.INTERRUPTED
    if ended == Exit.INTERRUPTED:
        sys.stderr.write("\ninterrupted; all that was shown as recorded is stored\n")
    return int(ended or Exit.DONE)


def _wrong_use(error: TyperException) -> int:
    sys.stderr.write(f"error: {plain(error.format_message())}\n")
    sys.stderr.write("try:   add --help to the command for its options and an example\n")
    return Exit.WRONG_USE


def common_first(arguments: Sequence[str]) -> list[str]:
    """Return the arguments with the options of every command moved to the front."""
    first: list[str] = []
    rest: list[str] = []
    left = list(arguments)
    while left:
        word = left.pop(0)
        if word == "--":
            return [*first, *rest, word, *left]
        name, equals, _ = word.partition("=")
        if name in context.COMMON and (equals or left):
            first += [word] if equals else [word, left.pop(0)]
        else:
            rest.append(word)
    return [*first, *rest]
