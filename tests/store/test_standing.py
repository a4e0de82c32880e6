from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from inventory.core.planning.plan import Need, Plan, Step
from inventory.store.ledger.events import add_step_event, step_states
from inventory.store.ledger.slips import add_slip
from inventory.store.planning.plans import save_plan
from inventory.store.planning.standing import standing
from tests.conftest import slip

if TYPE_CHECKING:
    from inventory.jobs.acts import Bench


class TakenBackError(Exception):
    pass


def plan(*codes: str) -> Plan:
    return Plan(
        source="plan.xlsx",
        sha256="c" * 64,
        steps=tuple(Step(code=code) for code in codes),
        needs=tuple(Need(step=code, part="SPAR", quantity=1) for code in codes),
    )


def read_plan(bench: Bench, key: str, *codes: str, undoes: int | None = None) -> int:
    with bench.store.writing(bench.kit.id) as db:
        recorded = add_slip(db, bench.kit.id, "plan", slip(key), undoes)
        if codes:
            save_plan(db, bench.kit.id, recorded.id, plan(*codes))
        return recorded.id


def codes_now(bench: Bench) -> list[str]:
    with bench.store.reading() as db:
        return [code for codes in standing(db, bench.kit.id).codes.values() for code in codes]


def test_a_new_plan_and_its_undoing_are_seen_at_once(bench: Bench) -> None:
    assert codes_now(bench) == []
    read_plan(bench, "first", "10-01")
    assert codes_now(bench) == ["10-01"]
    second = read_plan(bench, "second", "10-01", "10-02")
    assert codes_now(bench) == ["10-01", "10-02"]
    undone = read_plan(bench, "undo", undoes=second)
    assert codes_now(bench) == ["10-01"]
    read_plan(bench, "undo the undoing", undoes=undone)
    assert codes_now(bench) == ["10-01", "10-02"]


def test_what_did_not_change_is_read_once(bench: Bench) -> None:
    read_plan(bench, "plan", "10-01")
    with bench.store.reading() as db:
        first = standing(db, bench.kit.id)
        needs = first.needs(db, bench.kit.id, "10-01")
    with bench.store.writing(bench.kit.id) as db:
        add_slip(db, bench.kit.id, "issue", slip("issue"))
        assert standing(db, bench.kit.id) is first
        assert first.needs(db, bench.kit.id, "10-01") is needs
        assert [need.part for need in needs] == ["SPAR"]


def test_what_was_taken_back_is_never_kept(bench: Bench) -> None:
    """The number of an event that was taken back is given again, to another event."""
    read_plan(bench, "plan", "10-01")
    with pytest.raises(TakenBackError), bench.store.writing(bench.kit.id) as db:  # noqa: PT012
        recorded = add_slip(db, bench.kit.id, "step", slip("done"))
        add_step_event(db, bench.kit.id, recorded.id, "10-01", "done")
        assert standing(db, bench.kit.id).states == {"10-01": "done"}
        raise TakenBackError
    with bench.store.writing(bench.kit.id) as db:
        recorded = add_slip(db, bench.kit.id, "step", slip("started"))
        add_step_event(db, bench.kit.id, recorded.id, "10-01", "started")
    with bench.store.reading() as db:
        now = standing(db, bench.kit.id)
        assert now.states == step_states(db, bench.kit.id) == {"10-01": "started"}


def test_a_kit_without_a_plan_needs_nothing(bench: Bench) -> None:
    with bench.store.reading() as db:
        assert standing(db, bench.kit.id).needs(db, bench.kit.id, "10-01") == ()
