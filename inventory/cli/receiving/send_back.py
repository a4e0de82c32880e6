"""The command for pieces that go back to the supplier or carrier."""

from __future__ import annotations

from typing import Annotated

import typer

from inventory.cli import context
from inventory.cli.amounts import of_part, say_movements
from inventory.cli.asking import asked, taking
from inventory.cli.options import From, HandText, Json, Length, Lot, PartMaybe, Worked
from inventory.cli.show import document, note, table
from inventory.cli.table import Column
from inventory.core.errors import InventoryError

HowMany = Annotated[str, typer.Argument(metavar="AMOUNT", help="How many, or as 30ml.")]
Recipient = Annotated[str, typer.Option("--to", metavar="NAME", help="To whom.")]
Reference = Annotated[str, typer.Option(metavar="NO", help="Their number for it.")]
Carrier = Annotated[str, typer.Option(metavar="NAME", help="Who carries it.")]
Tracking = Annotated[str, typer.Option(metavar="NO", help="The carrier's number.")]
Wanted = Annotated[str, typer.Option(metavar="WHAT", help="replacement, credit or nothing.")]
ReportNumber = Annotated[int, typer.Option("--report", metavar="N", help="Our report about it.")]
Remark = Annotated[str, typer.Option("--note", metavar="WORDS", help="A remark.")]


def add_to(app: typer.Typer) -> None:
    """Put the command into the tree."""
    app.command("send-back")(send_back)


def send_back(
    part: PartMaybe = "",
    amount: HowMany = "",
    from_: From = "hold",
    hand: HandText = "",
    lot: Lot = None,
    length: Length = "",
    to: Recipient = "",
    reference: Reference = "",
    carrier: Carrier = "",
    tracking: Tracking = "",
    wanted: Wanted = "",
    report: ReportNumber = 0,
    words: Remark = "",
    *,
    worked: Worked = False,
    json: Json = False,
) -> None:
    """Record that pieces left the house, out of stock at once; without PART show what did.

    Example: kitwright send-back T2-RU-0502 1 --to "Curlew Slip Kit Works" --reference RMA-7
    """
    from inventory.jobs.receiving.sending_back import ReturnNote
    from inventory.jobs.receiving.sending_back import send_back as send_back_

    bench = context.open_bench()
    if not part:
        _show(json=json)
        return
    if not amount:
        raise InventoryError("how many go back?", remedy="Say it behind the part number.")
    which = asked(part, hand, lot, length, worked=worked)
    papers = ReturnNote(
        recipient=to, reference=reference, carrier=carrier, tracking=tracking, wanted=wanted,
        report=report or None,
    )  # fmt: skip
    back = taking(bench, which, amount, from_)
    say_movements(bench, [send_back_(bench, back, papers, context.new_slip(words))])


def _show(*, json: bool) -> None:
    from inventory.jobs.planning.measures import measures
    from inventory.jobs.receiving.sending_back import sent_back

    bench = context.open_bench()
    found, known = sent_back(bench), measures(bench)
    if json:
        document("sent back", found)
        return
    if not found:
        note("nothing was sent back")
        return
    table(
        [Column("act", number=True), Column("on"), Column("what", words=True),
         Column("to", words=True), Column("their no."), Column("wanted")],
        [
            (
                each.recorded.id,
                each.recorded.slip.happened_on,
                "; ".join(
                    f"{of_part(move.quantity, move.item.part, known)} x {move.item.part}"
                    for move in each.movements
                ),
                each.note.recipient,
                each.note.reference,
                each.note.wanted,
            )
            for each in found
        ],
    )  # fmt: skip
