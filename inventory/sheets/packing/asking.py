"""Doubts of one reading: each asked once, answered by id, or left open and shown."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.errors import Problem
from inventory.core.frozen import frozen
from inventory.core.lists.packing import Question

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from inventory.core.lists.packing import Reading


@frozen
class Doubt:
    """What a person has to settle, and the answers there are."""

    id: str
    """The same doubt on many rows has one id: `unit M`; else it names the row."""
    what: str
    readings: tuple[Reading, ...]
    accepts: Callable[[str], bool] | None = None
    """Says whether a typed answer is one, where others than the readings are taken."""


class Asking:
    """Collects what is asked about a list, and gives the answers that are there already."""

    def __init__(self, answers: Mapping[str, str]) -> None:
        """Take the answers by the id of their question."""
        self._answers = {_plain(name): answer.strip() for name, answer in answers.items()}
        self._doubts: dict[str, Doubt] = {}
        self._rows: dict[str, list[tuple[str, int]]] = {}
        self._taken: set[str] = set()
        self._wrong: dict[str, Problem] = {}

    def ask(self, doubt: Doubt, sheet: str, row: int, own: str = "") -> str | None:
        """Return the answer to a doubt about a row; None where it stays open.

        `own` is the id by which this row alone may have been answered otherwise.
        """
        key = _plain(own) if _plain(own) in self._answers else _plain(doubt.id)
        given = self._answers.get(key)
        if given is not None:
            self._taken.add(key)
            known = {_plain(each.answer): each.answer for each in doubt.readings}
            if _plain(given) in known:
                return known[_plain(given)]
            if doubt.accepts is not None and doubt.accepts(given):
                return given
            self._wrong[key] = _not_an_answer(doubt, given)
        self._doubts.setdefault(doubt.id, doubt)
        if row:
            self._rows.setdefault(doubt.id, []).append((sheet, row))
        return None

    def questions(self) -> tuple[Question, ...]:
        """Return what is still open, in the order it came up."""
        return tuple(
            Question(
                *(self._rows.get(doubt.id, [("", 0)])[0]),
                what=doubt.what,
                readings=doubt.readings,
                id=doubt.id,
                rows=tuple(dict.fromkeys(self._rows.get(doubt.id, ()))),
                open_answer=doubt.accepts is not None,
            )
            for doubt in self._doubts.values()
        )

    def problems(self) -> tuple[Problem, ...]:
        """Return the answers that don't fit their question."""
        return tuple(self._wrong.values())

    def unused(self) -> tuple[str, ...]:
        """Return the ids of answers to which this list has no question."""
        return tuple(key for key in self._answers if key not in self._taken)


def _plain(text: str) -> str:
    return " ".join(text.split()).casefold()


def _not_an_answer(doubt: Doubt, given: str) -> Problem:
    known = [each.answer for each in doubt.readings]
    known += ["a value of your own"] if doubt.accepts is not None else []
    return Problem(
        f"{given[:40]!r} is no answer to it",
        f"question {doubt.id!r}",
        f"Answer one of: {', '.join(known)}",
    )
