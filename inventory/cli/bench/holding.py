"""Commands that hold pieces back, and release them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.cli import context
from inventory.cli.amounts import say_movements
from inventory.cli.asking import asked, taking
from inventory.cli.options import Amount, From, HandText, Length, Lot, PartText, To, Why, Worked

if TYPE_CHECKING:
    import typer


def add_to(app: typer.Typer) -> None:
    """Put the commands into the tree."""
    app.command("hold")(hold)
    app.command("release")(release)


def hold(
    part: PartText,
    amount: Amount,
    from_: From = "",
    hand: HandText = "",
    lot: Lot = None,
    length: Length = "",
    why: Why = "",
    *,
    worked: Worked = False,
) -> None:
    """Hold pieces back: they are in no bin any more and can't be issued.

    Example: kitwright hold AN3-5A 2 --from D-01 --why "thread looks rolled"
    """
    from inventory.jobs.bench.putting_away import hold as hold_

    bench = context.open_bench()
    held = taking(bench, asked(part, hand, lot, length, worked=worked), amount, from_)
    say_movements(bench, [hold_(bench, held, context.new_slip(why))])


def release(
    part: PartText,
    amount: Amount,
    to: To = "",
    hand: HandText = "",
    lot: Lot = None,
    length: Length = "",
    why: Why = "",
    *,
    worked: Worked = False,
) -> None:
    """Put held pieces into a bin again; say who decided it and why.

    Example: kitwright release AN3-5A 2 --to D-01 --why "supplier says use, mail of 3 May"
    """
    from inventory.jobs.bench.putting_away import Putting
    from inventory.jobs.bench.putting_away import release as release_

    bench = context.open_bench()
    held = taking(bench, asked(part, hand, lot, length, worked=worked), amount, "hold")
    say_movements(bench, [release_(bench, Putting(held, to), context.new_slip(why))])
