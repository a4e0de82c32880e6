"""Options that several commands share."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from inventory.core.errors import InventoryError
from inventory.core.items import Hand

Json = Annotated[bool, typer.Option("--json", help="One JSON document instead of a table.")]
Check = Annotated[bool, typer.Option("--check", help="End with exit code 4 if there is any.")]
PartText = Annotated[str, typer.Argument(metavar="PART", help="Part number as printed.")]
Amount = Annotated[
    str, typer.Argument(metavar="AMOUNT", help="How many; or with its unit, as 30ml.")
]
PartMaybe = Annotated[str, typer.Argument(metavar="PART", help="Part number as printed.")]
AmountMaybe = Annotated[
    str, typer.Argument(metavar="AMOUNT", help="How many; or with its unit, as 30ml.")
]
HandText = Annotated[str, typer.Option("--hand", metavar="HAND", help="left, right, either, none.")]
Lot = Annotated[str | None, typer.Option("--lot", metavar="LOT", help="Lot or batch number.")]
Length = Annotated[
    str, typer.Option("--length", metavar="LENGTH", help="Of each piece, as 48in or 1219.2mm.")
]
Worked = Annotated[bool, typer.Option("--worked", help="The trimmed or drilled ones.")]
NewPart = Annotated[
    bool, typer.Option("--new-part", help="A number that looks like a known one, yet isn't it.")
]
Why = Annotated[str, typer.Option("--why", metavar="WORDS", help="The reason, for the record.")]
Output = Annotated[Path, typer.Option("-o", "--output", metavar="FILE", help="File to write.")]

Table = Annotated[
    Path | None,
    typer.Option("-o", "--output", metavar="FILE", help="A .pdf, .xlsx or .csv file."),
]

To = Annotated[str, typer.Option("--to", metavar="BIN", help="The bin they go into.")]
From = Annotated[
    str,
    typer.Option(
        "--from", metavar="PLACE", help="A bin, `crate 2/H1`, hold, bought, made or opening."
    ),
]

_HANDS = {
    "l": Hand.LEFT, "lh": Hand.LEFT, "left": Hand.LEFT, "port": Hand.LEFT,
    "r": Hand.RIGHT, "rh": Hand.RIGHT, "right": Hand.RIGHT, "stbd": Hand.RIGHT,
    "either": Hand.EITHER, "none": Hand.NONE,
}  # fmt: skip


def hand_of(text: str) -> Hand | None:
    """Return the hand that was typed; None where nothing was."""
    if not text:
        return None
    hand = _HANDS.get(text.strip().casefold())
    if hand is None:
        raise InventoryError(
            f"{text!r} is no hand", where="--hand", remedy="Say left, right, either or none."
        )
    return hand
