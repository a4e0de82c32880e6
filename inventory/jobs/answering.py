"""Acts that come over a network: each is answered once, and the first answer holds."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from inventory.core.errors import InventoryError, SlipConflictError, StoreError
from inventory.core.frozen import frozen
from inventory.jobs.together import together
from inventory.store.ledger.answers import StoredAnswer, add_answer, find_answer
from inventory.store.planning.standing import standing

if TYPE_CHECKING:
    from collections.abc import Callable

    from inventory.jobs.acts import Bench

    Refused = Callable[[InventoryError], "Answer"]


@frozen
class Question:
    """What a device asks for, under a key of its own."""

    key: str
    """The slip's key: the same key is the same act, however often it is sent."""
    asked: str
    """Digest of what is asked."""


@frozen
class Answer:
    """What is said to it."""

    status: int
    """As HTTP numbers it."""
    content: dict[str, Any]
    again: bool = False
    """True where it was said before; nothing was done this time."""


def answered(
    bench: Bench,
    question: Question,
    act: Callable[[Bench], dict[str, Any]],
    refused: Refused,
) -> Answer:
    """Do an act and keep its answer, both or neither; asked again, give the first answer again.

    A refusal is an answer, too, and nothing else of the act is stored with it. A store that can't
    be written to gives no answer: the device asks again. `refused` puts a refusal into words.
    """
    with together(bench) as joined, joined.store.reading() as db:
        standing(db, bench.kit.id, untouched=True)  # here it is kept; after a row was added, not
        earlier = find_answer(db, bench.kit.id, question.key)
        if earlier is not None:
            return _again(earlier, question)
        answer = _act(joined, act, refused)
        body = json.dumps(answer.content, ensure_ascii=False)
        add_answer(
            db, bench.kit.id, question.key, StoredAnswer(question.asked, answer.status, body)
        )
        return answer


def _act(bench: Bench, act: Callable[[Bench], dict[str, Any]], refused: Refused) -> Answer:
    try:
        with bench.store.writing(bench.kit.id):  # of several acts all are taken back, too
            return Answer(200, act(bench))
    except StoreError:
        raise
    except InventoryError as error:
        return refused(error)


def _again(earlier: StoredAnswer, question: Question) -> Answer:
    if earlier.asked != question.asked:
        raise SlipConflictError(
            f"slip {question.key} was answered before, but asked for something else",
            remedy="Give this act a slip of its own.",
        )
    return Answer(earlier.status, json.loads(earlier.body), again=True)


def first_answer(bench: Bench, key: str) -> Answer | None:
    """Return what was answered to a slip, or None where it never came."""
    with bench.store.reading() as db:
        stored = find_answer(db, bench.kit.id, key)
    return None if stored is None else Answer(stored.status, json.loads(stored.body), again=True)
