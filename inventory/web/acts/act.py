"""An act over the network: its name, its fields, and how it is done once."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from inventory.core.frozen import frozen
from inventory.core.items import Measure
from inventory.jobs.answering import Answer, Question, answered
from inventory.jobs.bench.scanning import issued_words
from inventory.jobs.planning.measures import measures
from inventory.web.refusing import UnreadableError, refusal_content, status_of

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from inventory.core.errors import InventoryError
    from inventory.core.record.ledger import Movement
    from inventory.web.fields import Field, Fields
    from inventory.web.visit import Visit

_KEY = re.compile(r"[0-9A-Za-z._-]{8,64}")
KEY_WORDS = "8 to 64 characters of A-Z, a-z, 0-9, dot, dash and underscore"


@frozen
class Act:
    """One act at the bench, as a device may ask for it."""

    name: str
    summary: str
    fields: tuple[Field, ...]
    do: Callable[[Visit, Fields], dict[str, Any]]


def perform(at: Visit, act: Act, fields: Fields, key: str) -> Answer:
    """Do an act once, however often it is sent, and return its first answer."""
    if _KEY.fullmatch(key) is None:
        raise UnreadableError("the slip has no key of its own", where="slip", remedy=KEY_WORDS)
    asking = replace(at, key=key, asked=fields.digest)
    question = Question(key, f"{act.name} {fields.digest}")
    with at.serving.writer:
        answer = answered(
            at.bench, question, lambda bench: act.do(asking.on(bench), fields), refused_answer
        )
    if not answer.again:
        at.serving.watch.changed(at.bench.kit.code)
    return answer


def told(*words: str) -> dict[str, Any]:
    """Return what is answered to an act that was recorded."""
    return {"words": list(words)}


def told_moves(at: Visit, moves: Iterable[Movement], *before: str) -> dict[str, Any]:
    """Return what is answered to an act that moved something, each amount with its unit."""
    known = measures(at.bench)
    words = (issued_words(each, known.get(each.item.part, Measure.PIECES)) for each in moves)
    return told(*before, *words)


def refused_answer(error: InventoryError) -> Answer:
    """Return a refusal as the answer that is kept for its slip."""
    return Answer(status_of(error), refusal_content(error))
