"""The command that counts: one part, many from a file, by scanning, or line by line."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from inventory.cli.asking import asked
from inventory.cli.options import HandText, Length, Lot, NewPart, PartMaybe
from inventory.cli.receiving import count_ways
from inventory.core.errors import InventoryError

if TYPE_CHECKING:
    from inventory.core.receiving.counts import Remark

Crate = Annotated[str, typer.Argument(metavar="CRATE", help="The crate.")]
PiecesText = Annotated[str, typer.Argument(metavar="PIECES", help="All that lie there.")]
Bag = Annotated[str, typer.Option(metavar="BAG", help="The bag in the crate.")]
Damaged = Annotated[str, typer.Option(metavar="N", help="So many of them are damaged.")]
Wrong = Annotated[str, typer.Option(metavar="N", help="So many of them are other parts.")]
Revision = Annotated[str, typer.Option(metavar="REV", help="As marked on the part.")]
Expires = Annotated[str, typer.Option(metavar="DATE", help="Last day of use, as marked.")]
InsteadOf = Annotated[str, typer.Option(metavar="PART", help="The papers say: sent for this one.")]
Remarks = Annotated[
    list[str] | None,
    typer.Option(metavar="WORD", help="unmarked, `no papers`, defective or duplicate."),
]
Weigh = Annotated[str, typer.Option(metavar="WORDS", help="By weight; see below.")]
Words = Annotated[str, typer.Option("--note", metavar="WORDS", help="A remark.")]
File = Annotated[Path | None, typer.Option(metavar="FILE", help="Many counts from a spreadsheet.")]
Scan = Annotated[bool, typer.Option("--scan", help="Each scanned part is one piece.")]
Recount = Annotated[bool, typer.Option("--recount", help="Takes the place of the earlier number.")]
More = Annotated[bool, typer.Option("--more", help="This adds to the earlier number.")]
Second = Annotated[bool, typer.Option("--second", help="Count again what another person counted.")]
Blind = Annotated[bool, typer.Option("--blind", help="Don't show what the list says.")]
Try = Annotated[bool, typer.Option("--try", help="With --weigh: show only, record nothing.")]
AsListed = Annotated[
    bool, typer.Option("--as-listed", help="Nobody counts it; the supplier says it needn't be.")
]

_AGAIN = ("second", "recount", "more")

NEGATIVE = {"ignore_unknown_options": True}
"""So that `-3` is a count that is refused with words, and no unknown option."""


BY_WEIGHT = (
    'By weight: --weigh "tare 12g gross 61.6g sample 25 12.5g step 0.1g", where 25 pieces weigh '
    "12.5 g and the scale shows 0.1 g steps. Ten weighed one by one say how much they differ: "
    '"sample 1 0.243g 0.246g ..."; groups of five: "sample 5 1.22g 1.23g ...". More words: '
    '"spread 0.8" (per cent, known from before), "inside" (the sample is counted with the rest, '
    "not weighed with it)."
)


def add_to(group: typer.Typer) -> None:
    """Put the command into the tree."""
    group.command("count", context_settings=NEGATIVE, epilog=BY_WEIGHT)(count)


def count(
    crate: Crate = "",
    part: PartMaybe = "",
    pieces: PiecesText = "",
    bag: Bag = "",
    hand: HandText = "",
    lot: Lot = None,
    length: Length = "",
    damaged: Damaged = "0",
    wrong: Wrong = "0",
    revision: Revision = "",
    expires: Expires = "",
    instead_of: InsteadOf = "",
    remark: Remarks = None,
    weigh: Weigh = "",
    words: Words = "",
    file: File = None,
    *,
    scan: Scan = False,
    recount: Recount = False,
    more: More = False,
    second: Second = False,
    blind: Blind = False,
    try_: Try = False,
    as_listed: AsListed = False,
    new_part: NewPart = False,
) -> None:
    """Count a part; with --file many, with --scan by scanner, with CRATE alone line by line.

    Example: kitwright crate count 2 T2-RU-0412 3 --hand left
    """
    ways = count_ways.Ways(crate, bag, words, _again(second, recount, more))
    if pieces and not part:
        raise count_ways.nothing_counted()
    if file is not None or scan or not part:
        return count_ways.count_many(ways, count_ways.Many(file, scan, blind, new_part))
    marks = count_ways.Marks(revision, expires, instead_of, remarks_of(remark), as_listed)
    which = asked(part, hand, lot, length, new=new_part)
    typed = count_ways.typed_count(ways, which, (pieces, damaged, wrong), marks)
    return count_ways.count_one(ways, typed, weigh, blind=blind, only_try=try_)


def _again(*said: bool) -> str:
    """Return how a count stands to an earlier one, by the options that were given."""
    return next((word for word, is_said in zip(_AGAIN, said, strict=True) if is_said), "")


def remarks_of(words: list[str] | None) -> frozenset[Remark]:
    """Return the remarks that were typed."""
    from inventory.core.receiving.counts import Remark

    told = {remark.value: remark for remark in Remark if remark is not Remark.MEASURED}
    unknown = [word for word in words or () if word.casefold() not in told]
    if unknown:
        raise InventoryError(
            f"{unknown[0]!r} is no remark", where="--remark", remedy=f"One of: {', '.join(told)}."
        )
    return frozenset(told[word.casefold()] for word in words or ())
