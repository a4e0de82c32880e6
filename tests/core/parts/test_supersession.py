from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.core.parts.supersession import (
    ReplacementKind,
    may_fill,
    replacements,
    rules_from,
    spelled,
    stands_for,
)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("AN470AD4-5", "MS20470AD4-5"),
        ("AN426AD3-3.5", "MS20426AD3-3.5"),
        ("AN365-832", "NAS1021N-08"),
    ],
)
def test_verified_pair_is_one_part_on_paper_both_ways(old: str, new: str) -> None:
    assert may_fill(old) == may_fill(new) == {old, new}
    for supplied, listed in ((new, old), (old, new)):
        row = stands_for(supplied, listed)
        assert row is not None
        assert (row.old, row.new, row.checked) == (old, new, True)


def test_spelling_of_either_side_does_not_matter() -> None:
    assert stands_for("MS20470 AD4-5", "an470ad-4-5") is not None


@pytest.mark.parametrize(
    ("supplied", "listed"),
    [
        ("MS20470AD4-6", "AN470AD4-5"),  # another length
        ("MS20470", "AN470"),  # bare bases
        ("MS20470AD4-5", "AN442AD4-5"),  # another head
        ("AN442AD4-5", "MS20470AD4-5"),
        ("MS20365-1032C", "MS20364-1032C"),  # battle damage only
        ("NAS1149F0363P", "AN960-10"),  # from memory
        ("MS20470AD5-5", "MS20470DD4-5"),  # needs engineering
        ("MS20470AD4-5", "MS20470AD4-5"),  # the same number is no replacement
        ("AN73-5A", "AN3-5A"),  # equal strength only
    ],
)
def test_nothing_else_is_counted_together(supplied: str, listed: str) -> None:
    assert stands_for(supplied, listed) is None
    assert supplied == listed or spelled(supplied) not in may_fill(listed)


def test_conditional_row_is_shown_with_its_condition_and_direction() -> None:
    (row,) = replacements("AN442AD4-5")
    assert (row.words, row.kind, row.one_way) == (
        "MS20470AD4-5",
        ReplacementKind.CONDITIONAL,
        True,
    )
    assert "another head" in row.condition
    assert row.source == "FAA AC 43.13-1B, 4-57 and 7-1"


def test_newer_number_shows_every_older_one() -> None:
    olds = {row.old for row in replacements("MS20470AD4-5")}
    assert olds == {"AN470AD4-5", "AN430AD4-5", "AN442AD4-5", "AN455AD4-5", "AN456AD4-5"}


@pytest.mark.parametrize(
    ("number", "words", "kind"),
    [
        ("AN148551", "MS9088 to MS9094", "superseded"),
        ("AN149250", "MS9088 to MS9094", "superseded"),
        ("AN149251", "", "superseded"),
        ("AN149350", "", "superseded"),
        ("NAS144-12", "MS20004 to MS20024", "superseded"),
        ("AN380-2-2", "AN381 or MS24665", "conditional"),
        ("AN3-5A", "AN73 series", "conditional"),
        ("MS20470D6-5", "2117 rivet (AD) one diameter larger", "engineering"),
        ("AN525-832R8", "MS27039", "conditional"),
    ],
)
def test_source_that_names_no_number_is_shown_in_words(number: str, words: str, kind: str) -> None:
    (row,) = (row for row in replacements(number) if not row.new)
    assert (row.words, row.kind, row.new, row.together) == (words, kind, "", False)


@pytest.mark.parametrize(
    "number", ["AN148550", "AN149351", "NAS160-12", "MS20470D8-5", "MS20470DD6-5", "AN36-5"]
)
def test_number_outside_the_range_has_no_row_of_it(number: str) -> None:
    assert all(row.new for row in replacements(number))


def test_number_without_successor_says_so() -> None:
    (row,) = replacements("AN149300")
    assert row.condition == "no successor"


def test_row_from_memory_is_marked() -> None:
    (row,) = replacements("NAS1149F0363P")
    assert (row.old, row.checked, row.together) == ("AN960-10", False, False)


def test_kits_own_number_has_no_row() -> None:
    assert replacements("T2-FL-0412") == ()
    assert may_fill("t2-fl-0412") == {"T2-FL-0412"}


OWN = """
[[pair]]
old = "T2-FT-1"
new = "t2-ft-2"
kind = "superseded"
one_way = true
condition = "revision C on"
source = "the kit's change list 7"
checked = true
"""


def test_persons_own_rule_counts_and_one_way_is_one_way() -> None:
    rules, problems = rules_from(OWN, "own.toml")
    assert problems == []
    assert may_fill("T2-FT-1", rules) == {"T2-FT-1", "T2-FT-2"}
    assert may_fill("T2-FT-2", rules) == {"T2-FT-2"}
    row = stands_for("T2-FT-2", "T2-FT-1", rules)
    assert row is not None
    assert row.source == "the kit's change list 7"
    assert stands_for("T2-FT-1", "T2-FT-2", rules) is None
    assert stands_for("T2-FT-2", "T2-FT-1") is None


def test_range_holds_for_digits_only() -> None:
    own = """
[[worded]]
of = 'X(?P<n>.*)'
between = [5, 7]
to = "Y"
kind = "conditional"
condition = "always"
source = "own"
"""
    rules, _ = rules_from(own, "own.toml")
    numbers = ("X4", "X5", "X7", "X8", "X", "X5A")
    assert [bool(replacements(number, rules)) for number in numbers] == [
        False,
        True,
        True,
        False,
        False,
        False,
    ]


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("pair = ", "can't be read"),
        ("", "there is no rule"),
        ("[pair]\nold = 1", "can't be read"),
        (OWN.replace("old =", "older ="), "'old' is missing"),
        (OWN.replace("superseded", "better"), "'better' is not a valid ReplacementKind"),
        ("[[worded]]\nof = '('", "can't be read"),
        (OWN.replace('"T2-FT-1"', "3"), "can't be read"),
        (OWN + "between = [1, 2]", "`between` needs a group `n`"),
    ],
)
def test_own_file_that_can_not_be_read_is_a_problem(text: str, why: str) -> None:
    rules, (problem,) = rules_from(text, "own.toml")
    assert rules == ()
    assert why in problem.what
    assert problem.where == "own.toml"


@given(st.text(max_size=20))
def test_part_always_fills_itself(text: str) -> None:
    assert spelled(text) in may_fill(text)


@pytest.mark.parametrize(
    ("text", "what", "remedy"),
    [
        ("", "there is no rule in it", "Begin each with [[pair]]."),
        (
            OWN.replace("old =", "older ="),
            "a rule can't be read: 'old' is missing",
            "Hold it against a rule of the table kept in the package.",
        ),
        (
            OWN + "between = [1, 2]",
            "a rule can't be read: `between` needs a group `n` in `of`",
            "Hold it against a rule of the table kept in the package.",
        ),
        (
            "[[worded]]\nof = 'X(?P<m>.*)'\nbetween = [1, 2]",
            "a rule can't be read: `between` needs a group `n` in `of`",
            "Hold it against a rule of the table kept in the package.",
        ),
    ],
)
def test_a_problem_comes_with_what_to_do(text: str, what: str, remedy: str) -> None:
    _, (problem,) = rules_from(text, "own.toml")
    assert (problem.what, problem.remedy) == (what, remedy)


def test_an_own_rule_is_both_ways_and_from_memory_unless_it_says_otherwise() -> None:
    less = OWN.replace("one_way = true\n", "").replace("checked = true\n", "")
    (rule,), _ = rules_from(less, "own.toml")
    assert (rule.one_way, rule.checked, rule.between) == (False, False, None)
    assert (rule.condition, rule.kind) == ("revision C on", ReplacementKind.SUPERSEDED)
    assert may_fill("T2-FT-1", [rule]) == {"T2-FT-1"}
    (both,), _ = rules_from(OWN.replace("one_way = true\n", ""), "own.toml")
    assert may_fill("T2-FT-2", [both]) == {"T2-FT-1", "T2-FT-2"}


@pytest.mark.parametrize(
    ("kind", "counts"),
    [("renumbered", True), ("superseded", True), ("conditional", False), ("engineering", False)],
)
def test_only_a_new_number_for_the_same_part_counts_as_it(kind: str, *, counts: bool) -> None:
    rules, _ = rules_from(OWN.replace("superseded", kind), "own.toml")
    assert (stands_for("T2-FT-2", "T2-FT-1", rules) is not None) is counts


def test_a_bare_base_bears_on_no_number() -> None:
    rules, _ = rules_from(OWN.replace("[[pair]]", "[[prefix]]"), "own.toml")
    assert [row.new for row in replacements("T2-FT-1-7", rules)] == ["T2-FT-2-7"]
    assert [row.old for row in replacements("T2-FT-2-7", rules)] == ["T2-FT-1-7"]
    assert replacements("T2-FT-1", rules) == replacements("T2-FT-3-7", rules) == ()


def test_an_own_rule_comes_before_those_kept_here() -> None:
    own = OWN.replace("T2-FT-1", "AN442AD4-5")
    rules, _ = rules_from(own, "own.toml")
    assert next(row.source for row in replacements("AN442AD4-5", rules)) == (
        "the kit's change list 7"
    )
