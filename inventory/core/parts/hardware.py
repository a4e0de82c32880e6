"""What a standard hardware number says of itself."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.items import part_key
from inventory.core.kept_tables import kept_rows
from inventory.core.measures.lengths import parse_length, show_length
from inventory.core.parts.hardware_grammar import Reading, kept_families

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from inventory.core.parts.hardware_grammar import Family


@frozen
class Fact:
    """One thing that a number says."""

    name: str
    words: str
    length: int = 0
    """Nanometres, where it is a length."""
    checked: bool = True
    """False where the rule is from memory: show it as unverified."""

    def __str__(self) -> str:
        """In words, marked where it isn't verified."""
        return self.words if self.checked else f"{self.words} (unverified)"


@frozen(kw_only=True)
class HardwareNumber:
    """A number as printed, and what was read from it; never more than the number says."""

    printed: str
    normal: str = ""
    """The spelling that all spellings of this number share; empty if unknown."""
    reading: Reading
    family: str = ""
    item: str = ""
    facts: tuple[Fact, ...] = ()
    remark: str = ""
    source: str = ""
    checked: bool = False
    why: str = ""
    """Why nothing, or not all, was read."""

    def fact(self, name: str) -> Fact | None:
        """Return one fact by name."""
        return next((fact for fact in self.facts if fact.name == name), None)

    def length(self, name: str) -> int:
        """Return one fact's length in nanometres; 0 where the number doesn't say it."""
        fact = self.fact(name)
        return fact.length if fact else 0


def identify(printed: str, own: Sequence[Family] = ()) -> HardwareNumber:
    """Return what the number says; a person's own families come before those kept here.

    A number that begins like a family but doesn't follow its grammar is unknown, with the reason:
    it is never decoded as the next best thing.
    """
    text = part_key(printed)
    families = (*own, *kept_families())
    for family in families:
        match = family.pattern.fullmatch(text)
        if match:
            return _read(printed, family, match.groupdict(""))
    begun = next((family for family in families if family.begins.match(text)), None)
    if begun is None:
        return HardwareNumber(
            printed=printed,
            reading=Reading.UNKNOWN,
            why="no family of standard hardware begins like this; a kit's own numbers don't",
        )
    return HardwareNumber(
        printed=printed,
        reading=Reading.UNKNOWN,
        family=begun.name,
        source=begun.source,
        why=f"it begins like a {begun.name}, but a part of the number is missing or strange",
    )


def is_hardware(printed: str, own: Sequence[Family] = ()) -> bool:
    """Say whether the number begins like standard hardware.

    Letters at the end of such a number (L, R, A, H) are no hand of the aircraft.
    """
    text = part_key(printed)
    return any(family.begins.match(text) for family in (*own, *kept_families()))


def _read(printed: str, family: Family, groups: Mapping[str, str]) -> HardwareNumber:
    facts: list[Fact] = []
    undecoded: list[str] = []
    for name, rule in family.fields.items():
        code = groups[name]
        if rule.is_length and code:
            length = rule.length(code)
            if isinstance(length, str):
                return HardwareNumber(
                    printed=printed,
                    reading=Reading.UNKNOWN,
                    family=family.name,
                    source=family.source,
                    why=length,
                )
            facts.append(Fact(name, show_length(length), length, rule.checked and family.checked))
        elif code in rule.words:
            facts.append(Fact(name, rule.words[code], 0, rule.checked and family.checked))
        elif code:
            undecoded.append(f"{name} {code}")
    words = {fact.name: fact.words for fact in facts}
    reading = Reading.PARTIAL if undecoded and family.reading is Reading.FULL else family.reading
    return HardwareNumber(
        printed=printed,
        normal=family.spelled(groups),
        reading=reading,
        family=family.name,
        item=family.item.format_map({**groups, **words}),
        facts=(*(fact for fact in facts if fact.words), *_from_table(family, groups)),
        remark=family.remark,
        source=family.source,
        checked=family.checked,
        why="not decoded: " + ", ".join(undecoded) if undecoded else "",
    )


def _from_table(family: Family, groups: Mapping[str, str]) -> Iterator[Fact]:
    if family.table:
        sizes = _sizes(family.table).get(family.table_key.format_map(groups))
        for name, inches in zip(("grip", "overall length"), sizes or (), strict=False):
            length = parse_length(inches, unit="in")
            yield Fact(name, show_length(length), length, checked=True)


@cache
def _sizes(table: str) -> Mapping[str, tuple[str, ...]]:
    return {
        f"{row['base']}-{code}": tuple(sizes)
        for row in kept_rows("hardware", table)
        for code, *sizes in row["rows"]
    }
