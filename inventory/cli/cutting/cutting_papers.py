"""Cutting plans as bars with tape marks: on screen, as PDF, as SVG, as a table."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from inventory.cli.why_words import named
from inventory.core.errors import InventoryError
from inventory.core.measures.lengths import show_length
from inventory.documents.cut_sticks import StickToSaw, alike, bar_of, patterns
from inventory.jobs.cutting.words import bought_words, stick_words, uncut_words

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence
    from pathlib import Path

    from inventory.documents.cut_bars import CutBar
    from inventory.jobs.acts import Bench
    from inventory.jobs.cutting.sticks import ProfilePlan, RackStick


def bars_of(profile: ProfilePlan, unit: str = "in") -> list[CutBar]:
    """Return the sticks of a plan; those that are cut alike are one bar with its times."""
    return alike(_bars(profile, unit))


def patterns_of(profile: ProfilePlan, unit: str = "in") -> list[CutBar]:
    """Return the sticks of a plan, those with cuts in the same places as one, whatever for."""
    return patterns(_bars(profile, unit))


def _bars(profile: ProfilePlan, unit: str) -> list[CutBar]:
    return [bar_of(StickToSaw(*each), profile.needs, unit) for each in stick_words(profile)]


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
