"""Plans and workshops that the tests of planning are written with, as tables of TOML give them."""

from __future__ import annotations

from typing import Any

from inventory.core.items import Hand, Item, State
from inventory.core.planning.plan import Need, NeedKind, Plan, Step
from inventory.core.planning.workshop import SetAside, StandIn, Workshop


def item_of(row: dict[str, Any]) -> Item:
    return Item(
        row["part"],
        Hand(row.get("hand", "none")),
        row.get("lot", ""),
        row.get("length", 0),
        State(row.get("state", "new")),
    )


def need_of(step: str, row: dict[str, Any]) -> Need:
    typed = {"hand": Hand(row.get("hand", "none")), "kind": NeedKind(row.get("kind", "part"))}
    return Need(step=step, **(row | typed))


def plan_of(steps: list[dict[str, Any]]) -> Plan:
    return Plan(
        steps=tuple(
            Step(code=row["code"], after=tuple(row.get("after", ())), makes=row.get("makes", ""))
            for row in steps
        ),
        needs=tuple(need_of(row["code"], need) for row in steps for need in row.get("needs", ())),
    )


def workshop_of(case: dict[str, Any]) -> Workshop:
    return Workshop(
        usable={item_of(row): row["quantity"] for row in case["stock"]},
        issued={(row["step"], item_of(row)): row["quantity"] for row in case.get("issued", ())},
        done=frozenset(case.get("done", ())),
        set_aside=tuple(
            SetAside(row["step"], item_of(row), row["quantity"])
            for row in case.get("set_aside", ())
        ),
        stand_ins=tuple(StandIn(**row) for row in case.get("stand_ins", ())),
    )


def one_part_plan(*quantities: int) -> Plan:
    return plan_of(
        [
            {"code": f"s{number}", "needs": [{"part": "P", "quantity": quantity}]}
            for number, quantity in enumerate(quantities, 1)
        ]
    )
