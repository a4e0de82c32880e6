from __future__ import annotations

from inventory.core.items import Hand, Item
from inventory.core.planning.freeing import Freeing, Missing, freeing_parts
from inventory.core.planning.open_needs import Pool
from inventory.core.planning.plan import Need, Plan, Step
from inventory.core.planning.shortage import net
from inventory.core.planning.workshop import Workshop


def pool(part: str) -> Pool:
    return Pool(part, Hand.NONE, 0)


def plan_of(needs: dict[str, str], after: dict[str, str] | None = None) -> Plan:
    """Return steps named by letters, each needing one of each part named by a letter."""
    before = after or {}
    return Plan(
        steps=tuple(Step(code=code, after=tuple(before.get(code, ""))) for code in needs),
        needs=tuple(
            Need(step=code, part=part, quantity=1) for code, of in needs.items() for part in of
        ),
    )


def said(plan: Plan, workshop: Workshop | None = None, most: int = 10) -> list[tuple[str, str]]:
    there = workshop or Workshop()
    return [
        (
            " ".join(f"{missing.quantity}{missing.pool.part}" for missing in entry.parts),
            "".join(entry.steps),
        )
        for entry in freeing_parts(net(plan, there), there.done, most=most)
    ]


def test_the_part_that_frees_most_steps_comes_first() -> None:
    plan = plan_of({"a": "P", "b": "Q", "c": "Q", "d": "QR"})

    assert said(plan) == [("3Q", "bc"), ("1P", "a"), ("1R", "d")]


def test_parts_that_free_work_only_together_are_named_together() -> None:
    plan = plan_of({"a": "PQR", "b": "PQR", "c": "PQR", "d": "PQRS", "e": "X", "f": "X"})

    assert said(plan) == [("2X", "ef"), ("4P 4Q 4R", "abc"), ("1S", "d")]


def test_what_comes_after_is_freed_too_and_what_is_done_is_left_out() -> None:
    plan = plan_of({"a": "P", "b": "", "c": "Q", "d": "P"}, after={"b": "a", "c": "b"})
    workshop = Workshop(usable={Item("Q"): 1}, done=frozenset("d"))

    assert said(plan, workshop) == [("1P", "abc")]


def test_the_makers_of_a_sub_assembly_come_before() -> None:
    plan = Plan(
        steps=(Step(code="a", makes="FRAME"), Step(code="b")),
        needs=(Need(step="a", part="P", quantity=2), Need(step="b", part="FRAME", quantity=1)),
    )

    assert freeing_parts(net(plan, Workshop()), frozenset()) == (
        Freeing((Missing(pool("P"), 2),), ("a", "b")),
    )


def test_all_that_lacks_of_a_part_is_counted() -> None:
    # c is freed by P alone, but a takes the first piece, and waits for five others.
    plan = plan_of({"a": "PABCDE", "c": "P"})

    assert said(plan) == [("2P", "c"), ("1A 1B 1C 1D 1E", "a")]


def test_more_than_five_parts_at_once_are_no_answer() -> None:
    assert said(plan_of({"a": "ABCDEF"})) == []
    assert said(plan_of({"a": "A", "b": "B", "c": "C"}), most=2) == [("1A", "a"), ("1B", "b")]


def test_an_as_required_part_that_is_not_there_is_one_to_get() -> None:
    plan = Plan(
        steps=(Step(code="a"),), needs=(Need(step="a", part="G", quantity=0, as_required=True),)
    )

    assert said(plan) == [("1G", "a")]
