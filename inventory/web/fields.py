"""The named fields of an act, as a form or a document sends them."""

from __future__ import annotations

import json
from enum import StrEnum
from hashlib import sha256
from typing import TYPE_CHECKING, Any

from inventory.core.frozen import frozen
from inventory.core.items import Hand, State
from inventory.core.measures.lengths import parse_length
from inventory.core.planning.shelf_life import read_date
from inventory.core.receiving.counts import read_pieces
from inventory.jobs.bench.finding_items import Asked
from inventory.jobs.planning.measures import amount_typed
from inventory.web.refusing import UnreadableError

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from datetime import date

    from inventory.jobs.acts import Bench

LONGEST = 500
"""Characters of one field; a note is longer than a code, and no book."""
_HANDS = {"left": Hand.LEFT, "right": Hand.RIGHT, "either": Hand.EITHER, "none": Hand.NONE}


class Kind(StrEnum):
    """What may stand in a field."""

    TEXT = "text"
    WHOLE = "whole number"
    HAND = "hand"
    YES = "yes or no"


@frozen
class Field:
    """One field of an act."""

    name: str
    words: str
    """What a person writes in it."""
    kind: Kind = Kind.TEXT
    needed: bool = False


HAND = Field("hand", "left, right, either or none.", Kind.HAND)
NEW_PART = Field("new_part", "It is another part, though its number looks like one.", Kind.YES)


@frozen
class Fields:
    """What was sent, each value as text; a field left out is empty."""

    values: Mapping[str, str]
    whole: frozenset[str] = frozenset()
    """Fields that came as numbers of a document: of what is measured, its smallest unit."""

    def text(self, name: str) -> str:
        """Return a field without blanks around it."""
        return self.values.get(name, "").strip()

    def pieces(self, name: str) -> int:
        """Return a whole number; refused where it isn't plainly one."""
        return read_pieces(self.text(name))

    def amount(self, bench: Bench) -> int:
        """Return how much of the part is meant: pieces, or `30 ml` of what is measured."""
        text = self.text("pieces")
        return int(text) if "pieces" in self.whole else amount_typed(bench, self.text("part"), text)

    def day(self, name: str) -> date | None:
        """Return a day as it is written on packages; None where nothing was said."""
        text = self.text(name)
        return read_date(text) if text else None

    def yes(self, name: str) -> bool:
        """Say whether a box was ticked."""
        return self.text(name) not in {"", "no", "false"}

    def hand(self) -> Hand | None:
        """Return the hand; None where nothing was said."""
        text = self.text("hand")
        if text and text not in _HANDS:
            raise UnreadableError(f"{text!r} is no hand", remedy="left, right, either or none")
        return _HANDS.get(text)

    def asked(self) -> Asked:
        """Return the part that is meant, with all that was said of it."""
        length = self.text("length")
        return Asked(
            part=self.text("part"),
            hand=self.hand(),
            lot=self.text("lot") or None,
            length=parse_length(length) if length else None,
            state=State.WORKED if self.yes("worked") else None,
            new=self.yes(NEW_PART.name),
        )

    def asked_of_hand(self) -> Asked:
        """Return the part that is meant with its hand alone."""
        return Asked(part=self.text("part"), hand=self.hand())

    @property
    def digest(self) -> str:
        """What tells this question from another under the same slip."""
        said = {name: value for name, value in self.values.items() if value}
        return sha256(json.dumps(said, sort_keys=True).encode()).hexdigest()


def from_form(fields: Iterable[Field], sent: Mapping[str, Any]) -> Fields:
    """Return the fields that a form sent; what isn't text or too long is refused."""
    return Fields({each.name: _short(each.name, sent.get(each.name, "")) for each in fields})


def from_document(fields: Iterable[Field], sent: object) -> Fields:
    """Return the fields of a JSON document; every doubt about it is refused with words."""
    known = {each.name: each for each in fields}
    if not isinstance(sent, dict):
        raise UnreadableError("an object with named fields is wanted", where="body")
    for name in sent:
        if name not in known:
            raise UnreadableError(
                f"there is no field {str(name)[:40]!r}",
                where="body",
                remedy=f"There are: {', '.join(known)}.",
            )
    values = {name: _value(field, sent) for name, field in known.items()}
    whole = (name for name, field in known.items() if field.kind is Kind.WHOLE and values[name])
    return Fields(values, frozenset(whole))


def _value(field: Field, sent: Mapping[str, Any]) -> str:
    if field.name not in sent:
        if field.needed:
            raise UnreadableError(
                f"the field {field.name!r} is missing", where="body", remedy=field.words
            )
        return ""
    value = sent[field.name]
    match field.kind:
        case Kind.WHOLE if type(value) is int and 0 <= value <= 10**15:
            return str(value)
        case Kind.YES if isinstance(value, bool):
            return "yes" if value else ""
        case Kind.TEXT | Kind.HAND if isinstance(value, str):
            return _short(field.name, value)
    raise UnreadableError(
        f"the field {field.name!r} holds no {field.kind}", where="body", remedy=field.words
    )


def _short(name: str, value: object) -> str:
    if not isinstance(value, str) or len(value) > LONGEST or "\0" in value or not _utf8(value):
        raise UnreadableError(
            f"the field {name!r} holds no text, or more than {LONGEST} characters",
            where=name,
            remedy="Write it shorter.",
        )
    return value.replace("\r\n", " ").replace("\n", " ")


def _utf8(text: str) -> bool:
    """Say whether every character can be stored; halves of surrogate pairs can't."""
    try:
        text.encode()
    except UnicodeEncodeError:
        return False
    return True
