"""Questions of one moment: read once; anew for the next moment, or while somebody writes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.places import Place, PlaceKind
from inventory.jobs.bench.putting_away import add_bins
from inventory.jobs.together import at_one_moment, together
from inventory.store.ledger.stock import lying
from inventory.store.opening.one_moment import read_once
from inventory.store.settings import set_setting, setting
from tests.conftest import slip

if TYPE_CHECKING:
    from inventory.jobs.acts import Bench
    from inventory.store.opening.database import Connection

asked: list[str] = []


@read_once
def words_of(db: Connection, name: str) -> list[str]:
    asked.append(name)
    return setting(db, name).split()


def test_second_question_of_a_moment_is_answered_from_memory(bench: Bench) -> None:
    asked.clear()
    with bench.store.writing() as db:
        set_setting(db, "a", "one two")
    with at_one_moment(bench) as seen, seen.store.reading() as first, seen.store.reading() as again:
        words_of(first, "a").append("spoilt by who asked")
        assert words_of(again, "a") == ["one", "two"]
        assert words_of(again, "b") == []
    assert asked == ["a", "b"]


def test_next_moment_is_read_anew(bench: Bench) -> None:
    for said in ("one", "two"):
        with bench.store.writing() as db:
            set_setting(db, "a", said)
        with bench.store.reading() as db:
            assert words_of(db, "a") == [said]


def test_what_an_act_adds_is_seen_by_itself(bench: Bench) -> None:
    with together(bench) as inside, inside.store.reading() as db:
        set_setting(db, "a", "one")
        assert words_of(db, "a") == ["one"]
        set_setting(db, "a", "two")
        assert words_of(db, "a") == ["two"]


def test_acts_go_on_after_a_moment_was_looked_at(bench: Bench) -> None:
    with at_one_moment(bench) as seen, seen.store.reading() as db:
        assert lying(db, bench.kit.id, place=Place(PlaceKind.BIN, "B-1")) == []
    assert add_bins(bench, ["B-1"], "", slip("bins")) == ["B-1"]
