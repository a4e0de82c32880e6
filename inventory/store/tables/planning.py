"""Tables of the plan: steps, their order, their needs, and how far each has come."""

from __future__ import annotations

from sqlalchemy import Column

from inventory.store.tables.base import (
    BySlip,
    OfKit,
    Whole,
    check,
    index,
    key,
    number,
    table,
    to,
    words,
)


class PlanColumns(BySlip):
    """A plan as it was read; the newest one that isn't undone counts."""

    source: Column[str] = words()
    sha256: Column[str] = words()
    replaces: Column[int | None] = Column(Whole, nullable=True)
    notes: Column[str] = words("[]")
    """What of the file was left out, as a JSON list."""


class StepColumns(OfKit):
    """One unit of building work; `id` is its place in the plan's own order."""

    plan: Column[int] = Column(Whole, primary_key=True, autoincrement=False)
    code: Column[str] = words()
    title: Column[str] = words("")
    section: Column[str] = words("")
    sub_assembly: Column[str] = words("")
    after: Column[str] = words("[]")
    """Codes of the steps before it, as a JSON list."""
    makes: Column[str] = words("")
    makes_hand: Column[str] = words("none")
    days: Column[int] = number(0)
    row: Column[int] = number(0)
    cell: Column[str] = words("")
    """Where it stands in the file: sheet and cell."""


class NeedColumns(OfKit):
    """What one step uses of one part."""

    plan: Column[int] = Column(Whole, primary_key=True, autoincrement=False)
    step: Column[str] = words()
    part: Column[int] = number()
    printed: Column[str] = words("")
    description: Column[str] = words("")
    hand: Column[str] = words()
    quantity: Column[int] = number()
    spare: Column[int] = number(0)
    measure: Column[str] = words("pieces")
    kind: Column[str] = words("part")
    length: Column[int] = number(0)
    one_of: Column[str] = words("")
    as_required: Column[int] = number(0)
    sheet: Column[str] = words("")
    find_number: Column[str] = words("")
    revision: Column[str] = words("")
    prepared: Column[str] = words("")
    row: Column[int] = number(0)
    cell: Column[str] = words("")
    rank: Column[int] = number(0)
    """Place of its step in build order, from 1; 0 where it was saved before ranks were."""
    tied: Column[int] = number(0)
    """1 where more than its part's total decides: tool, cut, alternate, as required, prepared."""


class PartSizeColumns(OfKit):
    """What a plan says a part measures, in nanometres; 0 where it doesn't say."""

    plan: Column[int] = Column(Whole, primary_key=True, autoincrement=False)
    part: Column[int] = number()
    hand: Column[str] = words()
    thickness: Column[int] = number(0)
    width: Column[int] = number(0)
    length: Column[int] = number(0)
    holes: Column[int | None] = Column(Whole, nullable=True)


class StepEventColumns(BySlip):
    """A step was started, done, done before the record began, or reopened."""

    step: Column[str] = words()
    event: Column[str] = words()


plan = table("plan", PlanColumns, to("slip", "slip"), to("plan", "replaces"))
step = table("step", StepColumns, key("kit", "plan", "id"), to("plan", "plan"))
need = table(
    "need",
    NeedColumns,
    key("kit", "plan", "id"),
    check("quantities", "quantity >= 0 AND spare >= 0 AND length >= 0"),
    index("kit", "plan", "step"),
    index(
        "kit",
        "plan",
        "part",
        "hand",
        "length",
        "rank",
        "quantity",
        "spare",
        "tied",
        name="ix_need_netting",
    ),
    to("plan", "plan"),
    to("part", "part"),
)
step_event = table("step_event", StepEventColumns, index("kit", "step"), to("slip", "slip"))
part_size = table(
    "part_size",
    PartSizeColumns,
    key("kit", "plan", "id"),
    check("sizes", "thickness >= 0 AND width >= 0 AND length >= 0"),
    to("plan", "plan"),
    to("part", "part"),
)
