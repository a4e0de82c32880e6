"""The bin map: what lies where, shelf by shelf."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace
from itertools import accumulate, chain
from typing import TYPE_CHECKING

from inventory.core.counted import counted
from inventory.core.frozen import frozen
from inventory.core.items import Hand
from inventory.core.natural_order import natural
from inventory.documents.hands import hand_flag, hand_word
from inventory.documents.paper import FLAG_TALL, FLAG_WIDE, HAIRLINE, Paper
from inventory.documents.tables import Table
from inventory.documents.wrapping import BIG_NUMBER, NUMBER, SMALL, STRONG, Type, one_line
from labels.geometry import Rect
from labels.legibility import CLOSE, least_cap
from labels.typeface import Face

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from inventory.documents.page_head import PageHead

_ACROSS = 4
_PAD = 1.6
_FLAG_TYPE = Type(Face.BOLD, 1.6)


@frozen(kw_only=True)
class Lying:
    """Pieces of one item in a bin."""

    part: str
    quantity: str
    hand: Hand = Hand.NONE
    description: str = ""


@frozen(kw_only=True)
class MappedBin:
    """One bin on its shelf."""

    shelf: str = ""
    """Shelf, cabinet or wall; bins without one come last."""
    name: str
    contents: tuple[Lying, ...] = ()


def bin_map_pdf(head: PageHead, bins: Iterable[MappedBin]) -> bytes:
    """Return a map with a field for each bin, four side by side, shelf by shelf."""
    every = list(bins)
    paper = Paper(head, "Bin map")
    shelves: defaultdict[str, list[MappedBin]] = defaultdict(list)
    for bin_ in sorted(every, key=lambda one: natural(one.name)):
        shelves[bin_.shelf].append(bin_)
    empty = sum(not bin_.contents for bin_ in every)
    paper.write(f"{counted(len(every), 'bin')}, {empty} of them empty.")
    for shelf in sorted(shelves, key=lambda name: (not name, natural(name))):
        paper.heading(shelf or "On no shelf", keep=18.0)
        for start in range(0, len(shelves[shelf]), _ACROSS):
            _fields(paper, shelves[shelf][start : start + _ACROSS])
    return paper.save()


def bin_map_table(bins: Iterable[MappedBin]) -> Table:
    """Return what lies where as a table, one row for each item in each bin."""
    ordered = sorted(bins, key=lambda one: (not one.shelf, natural(one.shelf), natural(one.name)))
    return Table(
        "Bin map",
        ("Shelf", "Bin", "Part number", "Hand", "Quantity", "Description"),
        tuple(
            (bin_.shelf, bin_.name, one.part, hand_word(one.hand), one.quantity, one.description)
            for bin_ in ordered
            for one in bin_.contents or (Lying(part="", quantity=""),)
        ),
    )


def _fields(paper: Paper, bins: Sequence[MappedBin]) -> None:
    """Draw bins side by side, as tall as the fullest of them; a very full one runs on."""
    room = paper.inner / _ACROSS - 2 * _PAD
    left = [_items(bin_, room) for bin_ in bins]
    while any(left):
        most = int((paper.room - BIG_NUMBER.line - 2 * _PAD) / NUMBER.line)
        drawn = [_whole_items(items, most) for items in left]
        if not any(drawn):
            paper.new_page()
            continue
        _row(paper, bins, [list(chain(*items)) for items in drawn])
        left = [items[len(done) :] for items, done in zip(left, drawn, strict=True)]


@frozen
class _FieldLine:
    """One line in a bin's field: at the left end, at the right end, and the hand before both."""

    text: str
    kind: Type
    at_right: str = ""
    hand: Hand = Hand.NONE


def _items(bin_: MappedBin, room: float) -> list[list[_FieldLine]]:
    """Return the lines of each item: its whole number and pieces, then what it is."""
    if not bin_.contents:
        return [[_FieldLine("empty", SMALL)]]
    return [_item(one, room) for one in bin_.contents]


def _item(one: Lying, room: float) -> list[_FieldLine]:
    """Return the lines of one item; a long number gets smaller, and then a line of its own."""
    wide = max(0.1, NUMBER.width(one.part))
    share = min(1.0, (room - STRONG.width(one.quantity) - 2) / wide)
    if share * NUMBER.cap >= least_cap(CLOSE):
        kind = replace(NUMBER, cap=share * NUMBER.cap)
        lines = [_FieldLine(one.part, kind, at_right=one.quantity)]
    else:
        kind = replace(NUMBER, cap=min(1.0, room / wide) * NUMBER.cap)
        lines = [_FieldLine(one.part, kind), _FieldLine("", SMALL, at_right=one.quantity)]
    flag = hand_flag(one.hand)
    taken = _FLAG_TYPE.width(flag.word) + FLAG_WIDE * _FLAG_TYPE.cap + 1.5 if flag else 0.0
    if one.description or flag:
        words = one_line(one.description, SMALL, room - taken)
        lines.append(_FieldLine(words, SMALL, hand=one.hand))
    return lines


def _whole_items(items: Sequence[list[_FieldLine]], most: int) -> list[list[_FieldLine]]:
    """Return the first items that fit into so many lines."""
    lines = accumulate(len(item) for item in items)
    return [item for item, end in zip(items, lines, strict=True) if end <= most]


def _row(paper: Paper, bins: Sequence[MappedBin], texts: Sequence[Sequence[_FieldLine]]) -> None:
    """Draw one row of fields."""
    width = paper.inner / _ACROSS
    height = BIG_NUMBER.line + max(map(len, texts)) * NUMBER.line + 2 * _PAD
    for place, (bin_, lines) in enumerate(zip(bins, texts, strict=True)):
        x = paper.left + place * width
        paper.bar(Rect(x, paper.y, width, BIG_NUMBER.line), grey=0.9)
        paper.box(Rect(x, paper.y, width, height), HAIRLINE * 2)
        wide = max(0.1, BIG_NUMBER.width(bin_.name))
        kind = replace(BIG_NUMBER, cap=min(1.0, (width - 2 * _PAD) / wide) * BIG_NUMBER.cap)
        paper.text(x + _PAD, paper.y + BIG_NUMBER.cap + 1.1, bin_.name, kind)
        base = paper.y + BIG_NUMBER.line + _PAD + NUMBER.cap
        for line in lines:
            _field_line(paper, line, Rect(x + _PAD, base, width - 2 * _PAD, 0))
            base += NUMBER.line
    paper.gap(height)


def _field_line(paper: Paper, line: _FieldLine, at: Rect) -> None:
    """Draw one line of a field on its base line."""
    x = at.x
    flag = hand_flag(line.hand)
    if flag:
        top = at.y - (FLAG_TALL + 1) * _FLAG_TYPE.cap / 2
        x += paper.flag(x, top, flag, _FLAG_TYPE) + 1.5
    paper.text(x, at.y, line.text, line.kind)
    paper.text_right(at.right, at.y, line.at_right, STRONG)
