"""What stands beside a part row's cells: remarks, notes, comments, strokes and colours."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.lists.mark_words import NO_MARKS, Marks, read_marks
from inventory.sheets.packing.ticked_columns import refusal_in

if TYPE_CHECKING:
    from inventory.sheets.packing.open_row import OpenRow
    from inventory.sheets.packing.row_asking import RowAsking
    from inventory.sheets.packing.row_views import RowView

_COMMENTER = re.compile(r"^[^:\n]{1,40}:\s*\n")
_DELIVERY = {
    "to follow": "all of the line is back-ordered",
    "not coming": "nothing of it was shipped, and nothing follows",
    "as listed": "the amounts stand as printed",
}


@frozen(kw_only=True)
class RowMarks:
    """What all marks of a row come to."""

    marks: Marks = NO_MARKS
    remark: str = ""
    not_coming: bool = False
    """A person said that nothing of the line was shipped or will be."""
    part: str = ""
    """The number that a person said is in the crate instead of the listed one."""


_NOTHING = RowMarks()


def marks_of(row: OpenRow, footnote: str) -> RowMarks:
    """Return what remarks, notes, comments, strokes and colours say; unclear ones are asked."""
    remark = _remark(row)
    unticked = refusal_in(row.view) if id(row.view.table) in row.evidence.unticked else ""
    if not (remark or footnote or row.view.row.marks or row.part.waiting or unticked):
        return _NOTHING if "(" not in row.view.description else _described(row)
    marks = _with_notes(row, _with_description(row, read_marks(remark)), footnote)
    said = row.part.waiting or unticked
    if said and not marks.to_follow:
        marks, coming = _asked_delivery(said[:60], marks, row.asking)
    elif marks.unclear:
        marks, coming = _asked_delivery(f"remark {marks.unclear}", marks, row.asking)
    else:
        marks, coming = _by_looks(row, marks)
    part = _substitute(row, marks) if marks.replaced_by else ""
    return RowMarks(marks=marks, remark=remark, not_coming=not coming, part=part)


def _described(row: OpenRow) -> RowMarks:
    marks = _with_description(row, NO_MARKS)
    return RowMarks(marks=marks) if marks.to_follow else _NOTHING


def _with_description(row: OpenRow, marks: Marks) -> Marks:
    """Add what a description says in brackets: `(B/O)`."""
    if marks.to_follow or "(" not in row.view.description:
        return marks
    inside = read_marks(" ".join(re.findall(r"\(([^)]*)\)", row.view.description)))
    return replace(marks, to_follow=inside.to_follow, number=inside.number)


def _remark(row: OpenRow) -> str:
    """Return all remarks on a row in one text: columns, what stands beside, below, comments."""
    view = row.view
    texts = [*view.beside, *row.part.lines_below]
    comments = (mark.comment for mark in view.row.marks.values() if mark.comment)
    texts += [_COMMENTER.sub("", comment) for comment in comments]
    return "; ".join(" ".join(text.split()) for text in texts if text)


def _with_notes(row: OpenRow, marks: Marks, footnote: str) -> Marks:
    """Follow `see note 3` or a * to the note it points to."""
    name = marks.note or footnote
    if not name or marks.to_follow:
        return marks
    text = row.evidence.notes.get(name)
    if text is not None:
        said = read_marks(text)
        return said if said.to_follow or said.unclear or said.replaced_by else marks
    if not marks.note:
        return marks
    return replace(marks, unclear=marks.unclear or f"note {name}")


def _asked_delivery(name: str, marks: Marks, asking: RowAsking) -> tuple[Marks, bool]:
    """Ask what a mark means for delivery; return the marks, and whether the line is coming."""
    answer = asking.about_list(name, f"what does {name!r} mean for delivery?", _DELIVERY)
    if answer is None:
        asking.unknown.update({"shipped", "back_ordered"})
    return (Marks(to_follow=True) if answer == "to follow" else marks), answer != "not coming"


def _by_looks(row: OpenRow, marks: Marks) -> tuple[Marks, bool]:
    """Ask about strokes and colours, which say nothing in words."""
    if not row.view.row.marks:
        return marks, True
    if _struck(row.view):
        return _asked_delivery("struck out", marks, row.asking)
    if not marks.to_follow:
        fills = {mark.fill for mark in row.view.row.marks.values() if mark.fill}
        odd = sorted(fills & row.evidence.odd_fills)
        if odd:
            return _asked_delivery(f"colour {odd[0]}", marks, row.asking)
    return marks, True


def _struck(view: RowView) -> bool:
    places = [
        place
        for meaning in ("part", "description", "quantity", "ordered", "shipped")
        for place in view.table.places(meaning)
        if view.row.text(place)
    ]
    return any(view.row.mark(place).strike for place in places)


def _substitute(row: OpenRow, marks: Marks) -> str:
    listed = row.view.part
    answer = row.asking.about_row(
        "substitute",
        f"the list has {listed}, its remark speaks of {marks.replaced_by}: which was sent?",
        {
            listed: "the listed part was sent",
            marks.replaced_by: f"{marks.replaced_by} was sent in its place",
        },
    )
    if answer is None:
        row.asking.unknown.add("part")
    return answer if answer and answer != listed else ""
