"""Cutting plans as bars with tape marks: on screen, as PDF, as SVG, as a table."""

from __future__ import annotations

from collections import Counter, defaultdict
from dataclasses import replace
from typing import TYPE_CHECKING

from inventory.cli.why_words import named
from inventory.core.errors import InventoryError
from inventory.core.lengths import show_length
from inventory.core.money import Price
from inventory.documents.cut_bars import CutBar, CutPiece

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence
    from pathlib import Path

    from inventory.jobs.acts import Bench
    from inventory.jobs.cutting import PlannedStick, ProfilePlan, RackStick


def bars_of(profile: ProfilePlan, unit: str = "in") -> list[CutBar]:
    """Return the sticks of a plan; those that are cut alike are one bar with its times."""
    return _counted(_bar(profile, planned, unit) for planned in profile.sticks)


def patterns_of(profile: ProfilePlan, unit: str = "in") -> list[CutBar]:
    """Return the sticks of a plan, those with cuts in the same places as one, whatever for."""
    bars = [_bar(profile, planned, unit) for planned in profile.sticks]
    alike: defaultdict[CutBar, list[CutBar]] = defaultdict(list)
    for bar in bars:
        pieces = tuple(replace(piece, name="", step="") for piece in bar.pieces)
        alike[replace(bar, pieces=pieces)].append(bar)
    return [
        replace(of_pattern[0], times=len(of_pattern), pieces=_agreed(of_pattern))
        for of_pattern in alike.values()
    ]


def _agreed(bars: Sequence[CutBar]) -> tuple[CutPiece, ...]:
    """Return the pieces of bars that are cut alike; what differs between them is left out."""
    return tuple(
        CutPiece(
            name=same[0].name if len({each.name for each in same}) == 1 else "",
            length=same[0].length,
            step=same[0].step if len({each.step for each in same}) == 1 else "",
        )
        for same in zip(*(bar.pieces for bar in bars), strict=True)
    )


def _counted(bars: Iterable[CutBar]) -> list[CutBar]:
    return [replace(bar, times=times) for bar, times in Counter(bars).items()]


def _bar(profile: ProfilePlan, planned: PlannedStick, unit: str) -> CutBar:
    stick = planned.stick
    kept = stick.remnant >= profile.own.least_remnant
    return CutBar(
        name=_name(planned),
        stock=f"{profile.printed} {profile.description}".strip(),
        length=stick.stock.length,
        kerf=stick.saw.kerf,
        front_trim=stick.saw.trim // 2,
        back_trim=stick.saw.trim - stick.saw.trim // 2,
        pieces=tuple(
            CutPiece(
                name=" ".join(filter(None, (need.sheet, need.find_number))),
                length=piece.length,
                step=need.step,
            )
            for piece in stick.pieces
            for need in [profile.needs[piece.name]]
        ),
        remnant="to keep" if kept else "",
        unit=unit,
    )


def _name(planned: PlannedStick) -> str:
    if planned.place is None or planned.item is None:
        return "BUY"
    lot = f" lot {planned.item.lot}" if planned.item.lot else ""
    owned = planned.stick.stock.owned.name.lower()
    return f"{owned} from {planned.place.code}{lot}"


def bought_words(profile: ProfilePlan) -> str:
    """Return what has to be bought, and how sure it is that nothing less would do."""
    bought = [each.stick.stock.length for each in profile.sticks if each.place is None]
    counted = ", ".join(
        f"{bought.count(length)} x {show_length(length)}" for length in dict.fromkeys(bought)
    )
    words = f"buy {counted}" if counted else "nothing is to be bought"
    if profile.by_price and bought:
        words += f" for {Price(profile.plan.cost)}"
    return f"{words}; {_sureness(profile)}"


def _sureness(profile: ProfilePlan) -> str:
    plan = profile.plan
    if plan.proved:
        return "proved: no plan buys less"
    more = plan.cost - plan.bound
    shown = str(Price(more)) if profile.by_price else show_length(more)
    return f"not proved best: at most {shown} more than the best possible"


def uncut_words(profile: ProfilePlan) -> Iterator[str]:
    """Return a line for each kind of piece that doesn't come out of the stock, and why."""
    longest = profile.longest
    for piece in profile.too_long:
        why = (
            f"the longest stick is {show_length(longest)}"
            if longest
            else "none lies in a bin, and no length to buy is named"
        )
        yield f"{piece.quantity} x {_piece_words(profile, piece.name)}: {why}"
    left = [piece.name for piece in profile.plan.uncut]
    for name in dict.fromkeys(left):
        why = "the sticks don't suffice"
        yield f"{left.count(name)} x {_piece_words(profile, name)}: {why}"


def _piece_words(profile: ProfilePlan, name: str) -> str:
    need = profile.needs[name]
    return f"{show_length(need.length)} for step {need.step}"


def rack_row(stick: RackStick) -> tuple[object, ...]:
    """Return a row of what lies on the rack: bin, sticks, length, kind, who gets pieces."""
    pieces: Counter[tuple[str, int]] = Counter()
    for need, number in stick.promised:
        pieces[need.step, need.length] += number
    told = [f"{step} {number} x {show_length(length)}" for (step, length), number in pieces.items()]
    lot = f" lot {stick.item.lot}" if stick.item.lot else ""
    return (
        stick.place.code, stick.quantity, show_length(stick.item.length),
        ("remnant" if stick.remnant else "bar") + lot, named(told) or "nobody",
    )  # fmt: skip


def write_cutting(
    bench: Bench, profiles: Sequence[ProfilePlan], path: Path, unit: str = "in"
) -> None:
    """Write the plans as .pdf, .svg, .xlsx or .csv; what isn't cut stands in it too."""
    from inventory.cli.papers import page_head, write_file

    bars = [bar for profile in profiles for bar in bars_of(profile, unit)]
    match path.suffix.lower():
        case ".pdf":
            from inventory.documents.cutting_diagrams import cutting_pdf

            content = cutting_pdf(page_head(bench), bars, " ".join(_claims(profiles)))
        case ".svg":
            from inventory.documents.cutting_svg import cutting_svg

            content = cutting_svg(bars).encode()
        case ".xlsx":
            from inventory.documents.cutting_diagrams import cutting_table
            from inventory.documents.tables import to_xlsx

            content = to_xlsx(page_head(bench), [cutting_table(bars)])
        case ".csv":
            from inventory.documents.cutting_diagrams import cutting_table
            from inventory.documents.tables import to_csv

            content = to_csv(cutting_table(bars))
        case suffix:
            raise InventoryError(
                f"a cutting plan isn't written as {suffix or 'a file without an ending'}",
                where=str(path),
                remedy="Name a file that ends in .pdf, .svg, .xlsx or .csv.",
            )
    write_file(path, content)


def _claims(profiles: Iterable[ProfilePlan]) -> Iterator[str]:
    for profile in profiles:
        yield f"{profile.printed}: {bought_words(profile)}."
        for words in uncut_words(profile):
            yield f"NOT FROM THIS STOCK: {words}."
