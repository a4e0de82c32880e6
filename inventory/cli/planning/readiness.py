"""The command for readiness: what can start, what finishes together, what frees most, and when."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from inventory.cli import context
from inventory.cli.amounts import amount, needed
from inventory.cli.options import Json
from inventory.cli.planning.shortages import no_plan
from inventory.cli.show import HAND, PART, document, hand_word, note, say, table
from inventory.cli.table import Column
from inventory.cli.why_words import named
from inventory.core.counted import counted
from inventory.core.errors import InventoryError

if TYPE_CHECKING:
    from inventory.core.planning.forecast import StepForecast
    from inventory.core.planning.freeing import Freeing
    from inventory.core.planning.ready import StepReady
    from inventory.core.planning.shortage import NetNeed
    from inventory.jobs.acts import Bench
    from inventory.jobs.planning.forecasting import Forecasts
    from inventory.jobs.planning.readiness import Largest as LargestSet


def add_to(app: typer.Typer) -> None:
    """Put the command into the tree."""
    app.command("ready")(ready)


OfStep = Annotated[str, typer.Argument(metavar="STEP", help="What can be done of this step.")]
Largest = Annotated[
    bool, typer.Option("--largest", help="The most steps that can be finished together.")
]
Frees = Annotated[bool, typer.Option("--frees", help="Which missing parts free most steps.")]
Forecast = Annotated[
    bool, typer.Option("--forecast", help="When each step can begin, as promised.")
]
Slipped = Annotated[
    int, typer.Option(metavar="DAYS", help="With --forecast: deliveries so much later.")
]
Source = Annotated[
    str, typer.Option(metavar="WORDS", help="With --slip: only deliveries so named.")
]
Late = Annotated[bool, typer.Option("--late", help="With --forecast: the late end of each range.")]


def ready(
    step: OfStep = "",
    *,
    every: Annotated[bool, typer.Option("--all", help="All steps, also those that wait.")] = False,
    largest: Largest = False,
    frees: Frees = False,
    forecast: Forecast = False,
    slip: Slipped = 0,
    source: Source = "",
    late: Late = False,
    json: Json = False,
) -> None:
    """Show which steps can start now, and what keeps the others.

    Example: kitwright ready --largest
    """
    bench = context.open_bench()
    if sum((bool(step), largest, frees, forecast)) > 1:
        raise InventoryError(
            "these are different questions", remedy="Ask for one: STEP, --largest, --frees, ..."
        )
    if step:
        _one(bench, step, json=json)
    elif largest:
        _largest(bench, json=json)
    elif frees:
        _frees(bench, json=json)
    elif forecast or slip or late:
        _forecast(bench, (slip, source, late), json=json)
    else:
        _now(bench, every=every, json=json)


def _now(bench: Bench, *, every: bool, json: bool) -> None:
    from inventory.jobs.bench.looking_up import ready as ready_

    steps = ready_(bench)
    if json:
        document("ready", steps)
        return
    if not steps:
        no_plan()
        return
    shown = [each for each in steps if every or each.readiness not in ("done", "waits", "short")]
    rows = [_ready_row(each) for each in shown]
    columns = [
        Column("step"), Column("state", words=True), Column("title", words=True),
        Column("keeps it", words=True),
    ]  # fmt: skip
    if rows:
        table(columns, rows)
    else:
        say("no step can start now")
    if not every:
        note(f"{len(steps) - len(shown)} other steps: kitwright ready --all")


def _ready_row(each: StepReady) -> tuple[object, ...]:
    ready_now = each.readiness == "ready"
    unprepared = [net for net in each.unprepared if net not in each.short]
    keeps = (
        f"after {', '.join(each.waits_for)}" if each.waits_for else "",
        "short of " + ", ".join(_numbers(each.short)) if each.short else "",
        "not prepared: " + ", ".join(_numbers(tuple(unprepared))) if unprepared else "",
        "started" if each.started else "",
    )
    state = each.readiness.upper() if ready_now else each.readiness
    return each.step.code, state, each.step.title, "; ".join(filter(None, keeps))


def _numbers(needs: tuple[NetNeed, ...]) -> list[str]:
    return list(
        dict.fromkeys(
            f"{net.need.printed or net.need.part} {hand_word(net.need.hand)}".rstrip()
            for net in needs
        )
    )


def _one(bench: Bench, code: str, *, json: bool) -> None:
    from inventory.jobs.planning.readiness import ready_step

    seen = ready_step(bench, code)
    if json:
        document("ready step", seen)
        return
    say(f"step {seen.step.code}  {seen.step.title}".rstrip())
    say(f"{seen.readiness}{' (started)' if seen.started else ''}")
    if seen.waits_for:
        say(f"must be done first: {', '.join(seen.waits_for)}")
    _needs("can be done of it now", seen.fetchable)
    _needs("can't be done", seen.short)
    _needs("to be prepared", seen.unprepared)


def _needs(title: str, needs: tuple[NetNeed, ...]) -> None:
    if not needs:
        return
    say(f"\n{title}:")
    columns = [
        PART, HAND, Column("needs", number=True), Column("short", number=True), Column("plans"),
        Column("description", words=True),
    ]  # fmt: skip
    rows = [
        (
            net.need.printed or net.need.part, hand_word(net.need.hand), needed(net.need),
            amount(net.need, net.short, bare=True) if net.short else "",
            " ".join(filter(None, (net.need.sheet, net.need.find_number))), net.need.description,
        )
        for net in needs
    ]  # fmt: skip
    table(columns, rows)


def _largest(bench: Bench, *, json: bool) -> None:
    from inventory.jobs.planning.readiness import largest

    found = largest(bench)
    if json:
        document("largest set", found)
    elif not found.titles:
        no_plan()
    else:
        _show_largest(found)


def _show_largest(found: LargestSet) -> None:
    together = found.together
    sure = (
        "Proved: no set is larger."
        if together.proved
        else f"Not proved best: at least {together.worth}, at most {together.at_most}."
    )
    say("Three different answers, not to be mixed:")
    earlier_first = counted(len(together.in_order), "step")
    say(f"  in build order, earlier steps holding theirs: {earlier_first}")
    say(f"  each alone, if no other took anything:        {counted(len(found.alone), 'step')}")
    say(f"  finished together, the largest set found:     {counted(len(together.steps), 'step')}")
    say(sure)
    if together.steps:
        say()
        in_order = set(together.in_order)
        columns = [Column("step"), Column("also in build order"), Column("title", words=True)]
        rows = [
            (code, "yes" if code in in_order else "no", found.titles[code])
            for code in together.steps
        ]
        table(columns, rows)


def _frees(bench: Bench, *, json: bool) -> None:
    from inventory.jobs.planning.readiness import frees

    found = frees(bench)
    if json:
        document("freeing parts", found)
    elif not found:
        say("nothing that is missing stops a step")
    else:
        columns = [
            Column("rank", number=True), Column("missing", words=True),
            Column("frees", number=True), Column("steps", words=True),
        ]  # fmt: skip
        table(columns, [_freeing_row(rank, each) for rank, each in enumerate(found, 1)])
        note("each row counts on those above it being there")


def _freeing_row(rank: int, each: Freeing) -> tuple[object, ...]:
    from inventory.core.measures.lengths import show_length

    missing = "; ".join(
        f"{one.quantity} x {one.pool.part} {hand_word(one.pool.hand)}".rstrip()
        + (f" {show_length(one.pool.length)}" if one.pool.length else "")
        for one in each.parts
    )
    return rank, missing, len(each.steps), named(each.steps)


def _forecast(bench: Bench, asked: tuple[int, str, bool], *, json: bool) -> None:
    from inventory.jobs.planning.forecasting import Slipping, forecasts
    from inventory.jobs.planning.shelf_lives import this_day

    slip, source, late = asked
    if slip < 0 or (source and not slip):
        raise InventoryError("by how many days is it late?", remedy="Say --slip 14.")
    found = forecasts(bench, context.happened_on(this_day()), Slipping(slip, source, late))
    if json:
        document("forecast", found)
    elif not found.promised:
        say("no step is left to be done")
    else:
        _show_forecast(found, slip)


def _show_forecast(found: Forecasts, slip: int) -> None:
    columns = [
        Column("step"), Column("start"), Column("finish"), Column("slack", number=True),
        Column("decided by", words=True),
    ]  # fmt: skip
    if not slip:
        table(columns, [_forecast_row(each) for each in found.promised])
        note("as promised; calendar days. What if they slip: kitwright ready --forecast --slip 14")
        return
    if not found.changed:
        say(f"deliveries {counted(slip, 'day')} later move no step")
        return
    rows = [(each.step, each.was or "no date", each.now or "no date") for each in found.changed]
    table([Column("step"), Column("as promised"), Column(f"{slip} days late")], rows)


def _forecast_row(each: StepForecast) -> tuple[object, ...]:
    waits = [
        f"{wait.need.need.printed or wait.need.need.part} {hand_word(wait.need.need.hand)}".rstrip()
        for wait in each.waits_for
    ]
    decided = ", ".join([*dict.fromkeys(waits), *(f"step {code}" for code in each.after)])
    slack = "" if each.slack is None else each.slack
    return each.step.code, each.start or "no date", each.finish or "", slack, decided
