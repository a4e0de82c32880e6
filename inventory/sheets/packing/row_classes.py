"""What one row of a packing list is, from its own cells and the rows beside it."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, NamedTuple

from inventory.core.lists.packing import RowClass
from inventory.core.measures.printed_quantity import QuantityKind
from inventory.sheets.packing.packing_vocabulary import AMOUNTS
from inventory.sheets.packing.profiles import is_part_like
from inventory.sheets.packing.row_views import COUNTING, RowView
from inventory.sheets.packing.row_words import (
    Heading,
    in_no_box,
    is_count_of_all,
    is_footer,
    is_not_used,
    is_page_number,
    is_rule,
    is_sentence,
    is_total,
    is_upper,
    keyword_heading,
    names_sub_kit,
    one_line,
    same_but_numbers,
)
from inventory.sheets.packing.to_follow import KIND, is_title_of_what_follows, speaks_of_later

if TYPE_CHECKING:
    from collections.abc import Mapping

    from inventory.core.measures.printed_quantity import PrintedQuantity
    from inventory.sheets.packing.surroundings import Surroundings

_SUB_KIT = re.compile(r"\bSUB-?\s?KIT\b", re.IGNORECASE)
REPEATED_TITLE = "repeats the title block"
_FEW_CELLS = 2
"""Cells of a remark; a row that fills more and isn't understood is asked about."""
_SHORT = 48
"""Characters of a title that stands without a word for what it opens."""


class Classed(NamedTuple):
    """The class of a row, why, and what it opens if it is a heading."""

    row_class: RowClass
    why: str
    heading: Heading | None = None


def looks_like_part(view: RowView) -> bool:
    """Say whether a row has a part number and a quantity, at first sight."""
    if not is_part_like(view.part):
        return False
    return any(quantity.kind in COUNTING for quantity in view.amounts().values())


def classify(view: RowView, around: Surroundings) -> Classed:
    """Return the class of one row, the reason in words, and the heading it is, if one."""
    if not view.filled:
        return Classed(RowClass.BLANK, "nothing stands in it")
    for look in (_by_words, _heading_by_word, _what_follows, _part, _text_only):
        found = look(view, around)
        if found is not None:
            return found
    return Classed(RowClass.UNKNOWN, "neither a part, a heading, a note nor a total")


def _by_words(view: RowView, around: Surroundings) -> Classed | None:
    """Tell rules, repeated titles, totals and footers."""
    texts = [view.row.text(place) for place in view.filled]
    if all(map(is_rule, texts)) and max(map(len, texts)) > 1:
        return Classed(RowClass.NOTE, "a drawn line")
    if _repeats_title(view, around):
        return Classed(RowClass.HEAD, REPEATED_TITLE)
    labels = [view.first, view.part] if view.part else [view.first, view.description]
    if any(map(is_total, labels)) or is_count_of_all(view.words):
        return Classed(RowClass.TOTAL, "begins as a total")
    remark = _by_sentence(view)
    if remark:
        return Classed(RowClass.NOTE, remark)
    meanings = {c.meaning for c in view.table.columns if c.place in view.filled}
    amounts = view.amounts()
    if meanings <= AMOUNTS and len(view.filled) == len(amounts) and _plain_numbers(amounts):
        return Classed(RowClass.TOTAL, "only sums stand in it")
    return None


def _repeats_title(view: RowView, around: Surroundings) -> bool:
    """Say whether a page's head stands again; `Crate 2` under `Crate 1` is the next one's title."""
    if same_but_numbers(view.words) not in around.title_block or looks_like_part(view):
        return False
    return one_line(view.words) in around.title_block or keyword_heading(view.words) is None


def _plain_numbers(amounts: Mapping[str, PrintedQuantity]) -> bool:
    return all(quantity.kind is not QuantityKind.UNREADABLE for quantity in amounts.values())


def _titled_amount(view: RowView) -> bool:
    """Say whether the row's one cell holds words in a column of quantities: a title there."""
    return len(view.filled) == 1 and not _plain_numbers(view.amounts())


def _by_sentence(view: RowView) -> str:
    """Return why a row is a remark by its wording alone; empty where it isn't."""
    if is_not_used(view.description or view.words) and not view.part and not view.amounts():
        return "a line of the list that isn't used"
    if is_footer(view.words):
        return "the foot of a page"
    beside = map(view.row.text, view.filled[1:])
    bare = not view.part and all(q.kind not in COUNTING for q in view.amounts().values())
    return "a page's number stands in it" if bare and any(map(is_page_number, beside)) else ""


def _only_one(view: RowView) -> bool:
    """Say whether no quantity, or only the quantity 1, stands in a row."""
    return all(
        quantity.kind in {QuantityKind.NOTHING, QuantityKind.TICK} or quantity.number in {0, 1}
        for quantity in view.amounts().values()
    )


def _heading_by_word(view: RowView, around: Surroundings) -> Classed | None:
    """Tell crates, bags and sub-kits by the word they begin with, also with quantity 1."""
    label = _label(view)
    heading = keyword_heading(label)
    plain = not is_sentence(view.words.rstrip(" .")) or in_no_box(label)
    plain = plain or speaks_of_later(view.words)
    if heading is not None and plain and not _is_number(view, label):
        titled = _titled_amount(view)
        if not view.part and (titled or not view.amounts()):
            heading = keyword_heading(view.words) or heading
        if titled or _only_one(view) or heading.kind == "bag":
            return Classed(RowClass.HEADING, f"opens a {_spoken(heading)}", heading)
    inside = keyword_heading(view.description) or _named_in(view.description)
    unnumbered = around.numbered and not view.text("item")
    opens = _opens_deeper(view, around) or (unnumbered and _opens(around))
    if view.part and inside and _only_one(view) and opens:
        name = inside.name if any(map(str.isdigit, inside.name)) else view.part
        opened = Heading(inside.kind, name)
        return Classed(RowClass.HEADING, f"a {_spoken(opened)} whose contents follow", opened)
    return None


def _label(view: RowView) -> str:
    """Return the cell that can hold a title: not one that says where a part lies."""
    item = view.text("item")
    if view.part:
        return view.part
    if item and not item.isdigit():
        return item
    bare = not view.amounts() or _titled_amount(view)
    return view.description or (view.first if bare else "")


def _is_number(view: RowView, label: str) -> bool:
    """Say whether a label is one word with a description beside it: a part number, KIT-100."""
    return bool(view.part and view.description) and " " not in label and is_part_like(label)


def may_open(view: RowView) -> Heading | None:
    """Return what a part row can as well be the title of: BAG-7, HARDWARE BAG, WING SUB-KIT."""
    heading = keyword_heading(view.part) or keyword_heading(view.description)
    heading = heading or _named_in(view.description)
    if heading is None or not _only_one(view):
        return None
    sub_kit = _SUB_KIT.search(view.description) is not None
    return heading if heading.kind == "bag" or sub_kit else None


def _named_in(description: str) -> Heading | None:
    words = description.upper().replace(",", " ").replace("-", " ").split()
    for word, kind in (
        ("BAG", "bag"),
        ("ENVELOPE", "bag"),
        ("KIT", "sub_kit"),
        ("SUBKIT", "sub_kit"),
    ):
        if word in words:
            return Heading(kind, description)
    return None


def _opens_deeper(view: RowView, around: Surroundings) -> bool:
    return around.following is not None and around.following.level > view.level


def _spoken(heading: Heading | None) -> str:
    return heading.kind.replace("_", "-") if heading else ""


def _part(view: RowView, around: Surroundings) -> Classed | None:
    amounts = view.amounts()
    counted = any(quantity.kind in COUNTING for quantity in amounts.values())
    keyed = bool(view.part) or not view.table.places("part")
    named = view.part or view.description
    if keyed and named and counted:
        return Classed(RowClass.PART, "a part number and a quantity")
    if view.part and amounts and (is_part_like(view.part) or view.ditto):
        return Classed(RowClass.PART, "a part number; its quantity isn't plain")
    if _names_part(view) and not is_sentence(view.part):
        if _titles_sub_kit(view, around):
            return _heading(view, "a part number that opens a sub-kit")
        return Classed(RowClass.PART, "a part number without a quantity")
    if view.description and counted and not is_sentence(view.description):
        return Classed(RowClass.PART, "a quantity, but no part number")
    return None


def _names_part(view: RowView) -> bool:
    """Say whether the part-number cell holds a number: like one, or digits with a description."""
    digits = any(map(str.isdigit, view.part)) and bool(view.description)
    return is_part_like(view.part) or digits


def _titles_sub_kit(view: RowView, around: Surroundings) -> bool:
    """Say whether a number without quantity is a title: bold, and named so or set out less."""
    named = not view.description or names_sub_kit(view.description)
    bold = view.bold and not around.bold_parts
    return bold and _opens(around) and (named or _opens_deeper(view, around))


def _what_follows(view: RowView, around: Surroundings) -> Classed | None:
    following = around.following
    if following is None or not looks_like_part(following):
        return None
    if not is_title_of_what_follows(view, gap=around.gap):
        return None
    return Classed(RowClass.HEADING, "a title over what is to follow", Heading(KIND, view.words))


def _text_only(view: RowView, around: Surroundings) -> Classed | None:
    """Tell titles, remarks and continuations where no quantity helps."""
    words = view.words
    if view.amounts() and not _only_one(view) and not _titled_amount(view):
        return None
    if is_sentence(words):
        return Classed(RowClass.NOTE, "free text")
    in_brackets = words.startswith("(") and words.endswith(")")
    after_part = around.before in {RowClass.PART, RowClass.NOTE} and not around.gap
    in_description = set(view.filled) <= {
        *view.table.places("description"), *view.table.places("remark")
    }  # fmt: skip
    if in_brackets and after_part:
        return Classed(RowClass.NOTE, "carries on the row above")
    if _stands_out(view, around) or around.merged:
        return _title(view, around)
    if in_description and after_part:
        return Classed(RowClass.NOTE, "carries on the row above")
    return _title(view, around)


def _title(view: RowView, around: Surroundings) -> Classed | None:
    words = view.words
    numbered = bool(view.text("item")) and view.text("item") != view.first
    if len(words) > _SHORT or numbered:
        return None
    if _opens(around):
        return _heading(view, "a title above part rows")
    if len(view.filled) == 1 and around.following and (names_sub_kit(words) or is_upper(words)):
        return _heading(view, "a title")
    return Classed(RowClass.NOTE, "free text") if len(view.filled) <= _FEW_CELLS else None


def _heading(view: RowView, why: str) -> Classed:
    name = view.words.strip(" :*=-–—_")
    return Classed(RowClass.HEADING, why, Heading("sub_kit", name))


def _opens(around: Surroundings) -> bool:
    """Say whether the next row can be what a title stands over."""
    if around.following is None:
        return around.above_header
    return looks_like_part(around.following) or keyword_heading(around.following.words) is not None


def _stands_out(view: RowView, around: Surroundings) -> bool:
    bold = view.bold and not around.bold_parts
    return bold or (bool(view.fill) and not around.filled_parts)
