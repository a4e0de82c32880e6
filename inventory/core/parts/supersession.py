"""Numbers that replace each other on paper: shown with source and condition, decided by people."""

from __future__ import annotations

import re
import tomllib
from enum import StrEnum
from functools import cache
from typing import TYPE_CHECKING, Any

from inventory.core.errors import Problem
from inventory.core.frozen import frozen
from inventory.core.items import part_key
from inventory.core.kept_tables import kept_table
from inventory.core.parts.hardware import identify

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from inventory.core.kept_tables import Row


class ReplacementKind(StrEnum):
    """In what sense one number stands for another."""

    RENUMBERED = "renumbered"
    SUPERSEDED = "superseded"
    CONDITIONAL = "conditional"
    ENGINEERING = "engineering"


_SAME_PART = frozenset({ReplacementKind.RENUMBERED, ReplacementKind.SUPERSEDED})


@frozen(kw_only=True)
class Replacement:
    """One rule of the table, as it bears on one number."""

    old: str
    new: str
    """A whole number; empty where only words say what replaces it."""
    words: str
    """The newer number, or what the source says instead."""
    kind: ReplacementKind
    one_way: bool
    """The newer may stand for the older, never the other way."""
    condition: str
    source: str
    checked: bool
    """Read in the source; else from memory: show it as unverified."""

    @property
    def together(self) -> bool:
        """Whether both numbers are one part on paper, by a source that was read."""
        return bool(self.new) and self.kind in _SAME_PART and self.checked


class Form(StrEnum):
    """How a rule names its numbers."""

    PREFIX = "prefix"
    """The same rest of the number behind both."""
    PAIR = "pair"
    """Two whole numbers."""
    WORDED = "worded"
    """No newer number follows by rule: only words say what the source says."""


@frozen(kw_only=True)
class ReplacementRule:
    """One row of the table."""

    form: Form
    old: str
    """Of a worded rule: the pattern of the numbers it is about."""
    new: str
    between: tuple[int, int] | None = None
    """Limits of the pattern's group `n`."""
    kind: ReplacementKind
    one_way: bool
    condition: str
    source: str
    checked: bool

    def bearing_on(self, number: str) -> Replacement | None:
        """Return the rule as it bears on a number, the older or the newer; None if it doesn't."""
        match self.form:
            case Form.PAIR:
                return self._for(self.old, self.new) if number in {self.old, self.new} else None
            case Form.PREFIX:
                ends = [number.removeprefix(base) for base in (self.old, self.new)]
                rest = next((end for end in ends if end not in {number, ""}), "")
                return self._for(self.old + rest, self.new + rest) if rest else None
            case _:
                return self._for(number, "") if self._names(number) else None

    def _names(self, number: str) -> bool:
        found = re.fullmatch(self.old, number)
        if found is None or self.between is None:
            return found is not None
        low, high = self.between
        digits = found["n"]
        return digits.isdecimal() and low <= int(digits) <= high

    def _for(self, old: str, new: str) -> Replacement:
        return Replacement(
            old=old,
            new=new,
            words=new or self.new,
            kind=self.kind,
            one_way=self.one_way,
            condition=self.condition,
            source=self.source,
            checked=self.checked,
        )


def replacements(part: str, own: Sequence[ReplacementRule] = ()) -> tuple[Replacement, ...]:
    """Return what bears on a number; a person's own rules come before those kept here."""
    number = spelled(part)
    found = (rule.bearing_on(number) for rule in (*own, *kept_rules()))
    return tuple(one for one in found if one)


def may_fill(listed: str, own: Sequence[ReplacementRule] = ()) -> frozenset[str]:
    """Return the numbers that are the listed part on paper, itself included.

    Only verified renumbered and superseded pairs, and against the arrow only where it isn't one
    way. Even so the person is shown "supplied as ..., listed as ...".
    """
    number = spelled(listed)
    numbers = {number}
    for row in replacements(number, own):
        if row.together and row.old == number:
            numbers.add(row.new)
        elif row.together and not row.one_way:
            numbers.add(row.old)
    return frozenset(numbers)


def stands_for(
    supplied: str, listed: str, own: Sequence[ReplacementRule] = ()
) -> Replacement | None:
    """Return the rule by which what came is the listed part on paper; None if there is none."""
    came, wanted = spelled(supplied), spelled(listed)
    if came == wanted or came not in may_fill(wanted, own):
        return None
    rows = replacements(wanted, own)
    return next(row for row in rows if row.together and came in {row.old, row.new})


def spelled(part: str) -> str:
    """Return a hardware number in the spelling its spellings share, else the part's key."""
    return identify(part).normal or part_key(part)


@cache
def kept_rules() -> tuple[ReplacementRule, ...]:
    """Return the rules kept in the package."""
    return _rules(kept_table("supersession"))


def rules_from(text: str, where: str) -> tuple[tuple[ReplacementRule, ...], list[Problem]]:
    """Return the rules of a person's own TOML file, and what is wrong with it.

    The form is that of the table kept in the package: [[prefix]] and [[pair]] with old and new,
    [[worded]] with `of` and `to`; each with kind, condition, source and checked.
    """
    try:
        rules = _rules(tomllib.loads(text))
    except (KeyError, ValueError, TypeError, AttributeError, re.error) as wrong:
        said = f"{wrong} is missing" if isinstance(wrong, KeyError) else str(wrong)
        remedy = "Hold it against a rule of the table kept in the package."
        return (), [Problem(f"a rule can't be read: {said}", where, remedy)]
    if not rules:
        return (), [Problem("there is no rule in it", where, "Begin each with [[pair]].")]
    return rules, []


def _rules(table: Mapping[str, Any]) -> tuple[ReplacementRule, ...]:
    return tuple(_rule(form, row) for form in Form for row in table.get(form, []))


def _rule(form: Form, row: Row) -> ReplacementRule:
    worded = form is Form.WORDED
    pattern = re.compile(row["of"]) if worded else None
    low_high = row.get("between")
    if low_high and (pattern is None or "n" not in pattern.groupindex):
        raise ValueError("`between` needs a group `n` in `of`")
    return ReplacementRule(
        form=form,
        old=pattern.pattern if pattern else spelled(row["old"]),
        new=row["to"] if worded else spelled(row["new"]),
        between=(int(low_high[0]), int(low_high[1])) if low_high else None,
        kind=ReplacementKind(row["kind"]),
        one_way=row.get("one_way", False),
        condition=row["condition"],
        source=row["source"],
        checked=row.get("checked", False),
    )
