"""Families of standard hardware numbers: the patterns they follow, and what each field says."""

from __future__ import annotations

import re
import tomllib
from dataclasses import field
from enum import StrEnum
from fractions import Fraction
from functools import cache
from string import Formatter
from typing import TYPE_CHECKING, Any

from inventory.core.errors import Problem
from inventory.core.frozen import frozen
from inventory.core.kept_tables import kept_table
from inventory.core.measures.lengths import INCH

if TYPE_CHECKING:
    from collections.abc import Mapping

    from inventory.core.kept_tables import Row

_LAST_EIGHTH = 7
_NUMBER = re.compile(r"[0-9]+(?:\.[0-9]+)?")
_COMPUTED = frozenset({"dash", "nodash", "n"})


class Reading(StrEnum):
    """How much of a number can be told from itself."""

    FULL = "full"
    PARTIAL = "partial"
    """Something in it is not decoded."""
    TABLE_NEEDED = "table-needed"
    """Its dash number is no arithmetic: only the standard's sheet says the size."""
    UNKNOWN = "unknown"


@frozen(kw_only=True)
class FieldRule:
    """How one part of a number is read."""

    words: Mapping[str, str] = field(default_factory=dict)
    part_of_inch: int = 0
    """So many of 1/n in; 0 where the field is no length."""
    less: int = 0
    tens: bool = False
    checked: bool = True

    @property
    def is_length(self) -> bool:
        """Whether the field is read as a length."""
        return self.tens or self.part_of_inch > 0

    def length(self, code: str) -> int | str:
        """Return nanometres, or in words why the code is no length of this family."""
        if _NUMBER.fullmatch(code) is None:
            return f"{code} is no number, so no length"
        if self.tens:
            inches, eighths = divmod(Fraction(code), 10)
            if eighths > _LAST_EIGHTH or eighths.denominator != 1:
                return f"length code {code} doesn't exist: eighths go from 0 to 7"
            return int((inches + eighths / 8) * INCH)
        nanometres = (Fraction(code) - self.less) * INCH / self.part_of_inch
        if nanometres.denominator != 1:
            return f"{code} is no whole number of nanometres"
        return int(nanometres)


@frozen(kw_only=True)
class Family:
    """One family of numbers; the fields are groups of the pattern."""

    name: str
    begins: re.Pattern[str]
    pattern: re.Pattern[str]
    normal: str
    item: str
    reading: Reading
    checked: bool
    source: str
    remark: str = ""
    table: str = ""
    table_key: str = ""
    fields: Mapping[str, FieldRule] = field(default_factory=dict)

    def spelled(self, groups: Mapping[str, str]) -> str:
        """Return the number in the one spelling that all its spellings share."""
        return self.normal.format_map(
            {
                **groups,
                "dash": "" if groups.get("material") else "-",
                "nodash": "" if groups.get("recess") else "-",
                "n": "N" if groups.get("number") else "",
            }
        )


@cache
def kept_families() -> tuple[Family, ...]:
    """Return the families kept in the package."""
    table = kept_table("hardware")
    return tuple(_family(row, table["lists"]) for row in table["family"])


def families_from(text: str, where: str) -> tuple[tuple[Family, ...], list[Problem]]:
    """Return the families of a person's own TOML file, and what is wrong with it.

    The form is that of the table kept in the package: `[[family]]` with name, begins, pattern,
    normal, item, reading, source, and `[family.fields]`.
    """
    try:
        table = tomllib.loads(text)
    except tomllib.TOMLDecodeError as wrong:
        remedy = "Mend the line, or copy the form of the table kept in the package."
        return (), [Problem(f"this is no TOML: {wrong}", where, remedy)]
    rows = table.get("family", [])
    if not isinstance(rows, list) or not rows:
        return (), [Problem("there is no [[family]] in it", where, "Begin each with [[family]].")]
    families: list[Family] = []
    problems: list[Problem] = []
    for number, row in enumerate(rows, start=1):
        try:
            families.append(_family(row, table.get("lists", {})))
        except (KeyError, ValueError, TypeError, AttributeError, re.error) as wrong:
            what = f"family {number} can't be read: {_in_words(wrong)}"
            remedy = "Hold it against a family of the table kept in the package."
            problems.append(Problem(what, where, remedy))
    return tuple(families), problems


def _in_words(wrong: Exception) -> str:
    return f"{wrong} is missing" if isinstance(wrong, KeyError) else str(wrong)


def _family(row: Row, lists: Mapping[str, Mapping[str, str]]) -> Family:
    family = Family(
        name=row["name"],
        begins=re.compile(row["begins"]),
        pattern=re.compile(row["pattern"]),
        normal=row["normal"],
        item=row["item"],
        reading=_reading(row["reading"]),
        checked=bool(row.get("checked", False)),
        source=row["source"],
        remark=row.get("remark", ""),
        table=row.get("table", ""),
        table_key=row.get("table_key", ""),
        fields={name: _rule(rule, lists) for name, rule in row.get("fields", {}).items()},
    )
    _refuse_unknown_names(family)
    return family


def _reading(word: str) -> Reading:
    if word not in set(Reading):
        raise ValueError(f"its reading is {word!r}, not {', '.join(Reading)}")
    return Reading(word)


def _rule(row: Mapping[str, Any], lists: Mapping[str, Mapping[str, str]]) -> FieldRule:
    return FieldRule(
        words=lists[row["list"]] if "list" in row else row.get("words", {}),
        part_of_inch=int(row.get("of", 0)),
        less=int(row.get("less", 0)),
        tens=bool(row.get("tens", False)),
        checked=bool(row.get("checked", True)),
    )


def _refuse_unknown_names(family: Family) -> None:
    groups = set(family.pattern.groupindex)
    templates = (family.normal, family.item, family.table_key)
    used = {name for text in templates for _, name, _, _ in Formatter().parse(text) if name}
    for name in sorted((used - _COMPUTED) | set(family.fields)):
        if name not in groups:
            raise ValueError(f"{name} is no named group of the pattern")
