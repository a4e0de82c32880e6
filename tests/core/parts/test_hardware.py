from __future__ import annotations

import re
import tomllib
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.core.measures.lengths import INCH
from inventory.core.parts.hardware import identify, is_hardware
from inventory.core.parts.hardware_grammar import Family, Reading, families_from, kept_families

CASES = tomllib.loads(
    Path(__file__).parents[2].joinpath("cases/hardware.toml").read_text(encoding="utf-8")
)["number"]

OWN = """
[[family]]
name = "float fitting"
begins = 'TF'
pattern = '(?P<base>TF)(?P<side>P|S)(?P<width>[0-9]{2})'
normal = '{base}{side}{width}'
item = 'fitting, {side}'
reading = "full"
checked = true
source = "the workshop's own list"

[family.fields]
side = { list = "sides" }
width = { of = 16 }

[lists]
sides = { P = "port", S = "starboard" }
"""


@pytest.mark.parametrize("case", CASES, ids=[case["number"] or "nothing" for case in CASES])
def test_number_says(case: dict[str, Any]) -> None:
    read = identify(case["number"])
    assert read.printed == case["number"]
    assert read.reading == case.get("reading", "full")
    assert (read.normal, read.item) == (case.get("normal", ""), case.get("item", ""))
    assert case.get("why", "") in read.why
    for name, inches in case.get("lengths", {}).items():
        assert read.length(name) == Fraction(inches or 0) * INCH
    for name, words in case.get("words", {}).items():
        fact = read.fact(name)
        assert fact is not None
        assert words in fact.words
    if read.reading is not Reading.UNKNOWN:
        assert read.checked is case.get("checked", True)


@pytest.mark.parametrize(
    "case", [case for case in CASES if "normal" in case], ids=lambda case: case["number"]
)
def test_one_spelling_reads_like_the_other(case: dict[str, Any]) -> None:
    again = identify(case["normal"])
    assert again.normal == case["normal"]
    assert again.facts == identify(case["number"]).facts


@pytest.mark.parametrize(
    "trap", ["AN365", "AN426", "AN470", "AN960", "AN310-5", "AN320-10", "AN21-5A", "AN2-5A"]
)
def test_other_families_never_read_as_a_bolt(trap: str) -> None:
    assert identify(trap).family != "hex bolt" or identify(trap).reading is Reading.UNKNOWN


def test_fact_from_memory_is_marked() -> None:
    thickness = identify("NAS1149F0363P").fact("thickness")
    assert thickness is not None
    assert not thickness.checked
    assert identify("AN350B1032").checked
    size = identify("AN350B1032").fact("size")
    assert size is not None
    assert not size.checked


def test_nominal_length_says_that_it_is_not_the_length() -> None:
    assert "nominal" in identify("AN3-4A").remark


@pytest.mark.parametrize("number", ["AN960-10L", "AN310D5R", "MS21047L08", "AN525-832R8", "AN365"])
def test_letters_of_hardware_are_told_from_hands(number: str) -> None:
    assert is_hardware(number)


def test_kits_own_number_is_no_hardware() -> None:
    assert not is_hardware("T2-FL-0412-L")


@given(st.text(max_size=30))
def test_any_text_gets_an_answer(text: str) -> None:
    read = identify(text)
    assert bool(read.normal) is (read.reading is not Reading.UNKNOWN)


@given(st.sampled_from(kept_families()), st.data())
def test_whatever_fits_a_pattern_is_read_or_refused_with_a_reason(
    family: Family, data: st.DataObject
) -> None:
    number = data.draw(st.from_regex(family.pattern, fullmatch=True))
    read = identify(number)
    assert read.family
    assert read.normal or read.why


def test_persons_own_family_comes_first() -> None:
    families, problems = families_from(OWN, "own.toml")
    assert problems == []
    read = identify("tfp05", families)
    assert (read.item, read.length("width")) == ("fitting, port", 5 * INCH // 16)
    assert is_hardware("TFX", families)
    assert not is_hardware("TFX")


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("x = ", "^this is no TOML: "),
        ("", r"^there is no \[\[family\]\] in it$"),
        ("family = 3", r"^there is no \[\[family\]\] in it$"),
        (OWN.replace("name =", "title ="), "'name' is missing"),
        (
            OWN.replace('reading = "full"', 'reading = "half"'),
            "its reading is 'half', not full, partial, table",
        ),
        (OWN.replace("(?P<base>TF)", "(?P<base>TF"), "family 1 can't be read"),
        (OWN.replace("'{base}{side}{width}'", "'{base}{part}'"), "part is no named group"),
        (OWN.replace('list = "sides"', 'list = "hands"'), "'hands' is missing"),
        (OWN.replace("width = { of = 16 }", "depth = { of = 16 }"), "depth is no named group"),
        ("[[family]]\nname = 3\nbegins = 4", "family 1 can't be read"),
        ("family = [3]", "^family 1 can't be read: "),
    ],
)
def test_own_file_that_can_not_be_read_is_a_problem(text: str, why: str) -> None:
    families, problems = families_from(text, "own.toml")
    assert families == ()
    (problem,) = problems
    assert problem.where == "own.toml"
    assert re.search(why, problem.what)


@pytest.mark.parametrize("rule", ["of = 16", "tens = true"])
def test_code_that_is_no_number_is_no_length(rule: str) -> None:
    own = OWN.replace("of = 16", rule).replace("[0-9]{2}", "[A-Z]")
    families, _ = families_from(own, "own.toml")
    assert identify("TFPX", families).why == "X is no number, so no length"


def test_half_an_eighth_has_no_code() -> None:
    own = OWN.replace("of = 16", "tens = true").replace("[0-9]{2}", "[0-9][.]5")
    families, _ = families_from(own, "own.toml")
    assert "length code 3.5 doesn't exist" in identify("TFP3.5", families).why


def test_length_finer_than_a_nanometre_is_refused() -> None:
    families, _ = families_from(OWN.replace("of = 16", "of = 7"), "own.toml")
    read = identify("TFP01", families)
    assert (read.reading, read.why) == (Reading.UNKNOWN, "01 is no whole number of nanometres")


@pytest.mark.parametrize(
    ("text", "remedy"),
    [
        ("x = ", "Mend the line, or copy the form of the table kept in the package."),
        ("", "Begin each with [[family]]."),
        ("family = [3]", "Hold it against a family of the table kept in the package."),
    ],
)
def test_own_file_that_can_not_be_read_comes_with_what_to_do(text: str, remedy: str) -> None:
    _, (problem,) = families_from(text, "own.toml")
    assert problem.remedy == remedy


MUCH = """
[[family]]
name = "float bolt"
begins = 'TB'
pattern = '(?P<base>TB)(?P<length>[0-9]+)(?P<end>[XY]?)'
normal = '{base}{length}{end}'
item = 'bolt'
reading = "full"
source = "the workshop's own list"
%s

[family.fields]
length = { of = 8, less = 1%s }
end = { words = { X = "drilled", Y = "plain" } }
"""


def test_an_own_family_may_say_less_and_is_from_memory_unless_it_says_checked() -> None:
    (family,), problems = families_from(MUCH % ("", ""), "own.toml")
    assert problems == []
    assert (family.remark, family.table, family.table_key, family.checked) == ("", "", "", False)
    read = identify("TB3X", [family])
    length, end = read.facts
    assert (length.length, end.words) == (2 * INCH // 8, "drilled")  # (3 - 1) eighths
    assert (read.checked, length.checked, end.checked) == (False, False, False)
    assert str(end) == "drilled (unverified)"


def test_an_own_family_may_say_more() -> None:
    more = "checked = true\nremark = 'clean the hole'\ntable = 'cotter'\ntable_key = '{base}'"
    (family,), _ = families_from(MUCH % (more, ", checked = false"), "own.toml")
    assert (family.remark, family.table, family.table_key) == ("clean the hole", "cotter", "{base}")
    assert family.checked
    rules = family.fields
    assert (rules["length"].checked, rules["end"].checked) == (False, True)
    assert (rules["length"].less, rules["length"].part_of_inch, rules["length"].tens) == (
        1,
        8,
        False,
    )
    assert (rules["length"].is_length, rules["end"].is_length) == (True, False)


def test_whole_inches_are_a_length_too() -> None:
    (family,), _ = families_from(MUCH.replace("of = 8", "of = 1") % ("", ""), "own.toml")
    assert identify("TB3", [family]).length("length") == 2 * INCH


def test_nothing_known_of_a_number_is_said_in_words() -> None:
    assert identify("T2-FL-0412").why == (
        "no family of standard hardware begins like this; a kit's own numbers don't"
    )
    families, _ = families_from(OWN, "own.toml")
    read = identify("TFX", families)
    assert (read.family, read.source) == ("float fitting", "the workshop's own list")
    assert read.why == (
        "it begins like a float fitting, but a part of the number is missing or strange"
    )


def test_what_is_not_decoded_is_named() -> None:
    words = MUCH.replace(', Y = "plain"', "")
    (family,), _ = families_from(words % ("", ""), "own.toml")
    read = identify("TB3Y", [family])
    assert (read.reading, read.why) == (Reading.PARTIAL, "not decoded: end Y")


def test_a_fact_that_is_not_there_has_no_length() -> None:
    read = identify("T2-FL-0412")
    assert (read.fact("length"), read.length("length")) == (None, 0)
