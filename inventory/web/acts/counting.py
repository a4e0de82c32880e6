"""Counting crates over the network."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from inventory.core.errors import InventoryError
from inventory.jobs.receiving.counting import TypedCount, ask_about, count_typed
from inventory.jobs.receiving.receiving import close_crate, open_crate
from inventory.web.acts.act import Act, told
from inventory.web.fields import HAND, NEW_PART, Field

if TYPE_CHECKING:
    from inventory.core.receiving.counts import Count
    from inventory.web.fields import Fields
    from inventory.web.visit import Visit

HOW = ("", "recount", "more")
SIDES = ("left", "right")

_CRATE = Field("crate", "Crate, as `1 OF 3` or `1`.", needed=True)
_NOTE = Field("note", "Anything worth knowing.")
COUNTED = (
    _CRATE,
    Field("bag", "Bag in the crate, as `H1`."),
    Field("part", "Part number as printed.", needed=True),
    Field("lot", "Lot or batch number."),
    Field("length", "Of each piece, as `48in` or `1219.2mm`."),
    Field("expires", "Last day of use of the lot, as marked."),
    Field("revision", "Revision printed on the part."),
    Field("how", "Empty for a first count, `recount`, or `more`."),
    NEW_PART,
    _NOTE,
)
"""What every count says, however the pieces are counted."""

_NUMBERS = (
    ("pieces", "All"), ("damaged", "Damaged among the"), ("wrong", "Wrong among the")
)  # fmt: skip


def _count(at: Visit, fields: Fields) -> dict[str, Any]:
    return told(_counted(at, fields, (fields.asked().hand and fields.text("hand")) or ""))


def _count_sides(at: Visit, fields: Fields) -> dict[str, Any]:
    said = [side for side in SIDES if fields.text(f"{side}_pieces")]
    if not said:
        raise InventoryError(
            "no number was given for either side",
            remedy="Type how many LEFT and how many RIGHT ones there are; 0 if there are none.",
        )
    return told(*(_counted(at, _side(fields, side), side) for side in said))


def _side(fields: Fields, side: str) -> Fields:
    """Return the fields of one side of a count of both."""
    own = {name: fields.text(f"{side}_{name}") for name in ("pieces", "damaged", "wrong")}
    part = fields.text(f"{side}_part") or fields.text("part")
    return type(fields)({**fields.values, **own, "part": part, "hand": side})


def _counted(at: Visit, fields: Fields, part: str = "") -> str:
    how = how_counted(fields)
    typed = typed_count(fields)
    ask_about(at.bench, typed.asked)
    counted = count_typed(
        at.bench,
        typed,
        at.slip(fields.text("note"), part),
        recount=how == "recount",
        more=how == "more",
    )
    return counted_words(counted)


def how_counted(fields: Fields) -> str:
    """Return how the number stands to an earlier one."""
    how = fields.text("how")
    if how not in HOW:
        raise InventoryError(f"{how!r} is no way to count", remedy="recount, more, or nothing")
    return how


def typed_count(fields: Fields) -> TypedCount:
    """Return the count that was sent."""
    return TypedCount(
        crate=fields.text("crate"),
        bag=fields.text("bag"),
        asked=fields.asked(),
        pieces=fields.text("pieces"),
        damaged=fields.text("damaged") or "0",
        wrong=fields.text("wrong") or "0",
        revision=fields.text("revision"),
        expires=fields.day("expires"),
    )


def counted_words(counted: Count) -> str:
    """Return in words what was recorded."""
    hand = "" if counted.hand == "none" else f" {counted.hand.upper()}"
    where = f"crate {counted.crate}" + (f" bag {counted.bag}" if counted.bag else "")
    bad = [f"{counted.pieces_damaged} damaged"] if counted.pieces_damaged else []
    bad += [f"{counted.pieces_wrong} wrong"] if counted.pieces_wrong else []
    held = f"; on hold: {', '.join(bad)}" if bad else ""
    return f"{counted.pieces_good} x {counted.part}{hand} counted in {where}{held}"


def _open(at: Visit, fields: Fields) -> dict[str, Any]:
    crate = open_crate(at.bench, fields.text("crate"), at.slip(fields.text("note")))
    return told(f"crate {crate} is opened")


def _close(at: Visit, fields: Fields) -> dict[str, Any]:
    crate = close_crate(at.bench, fields.text("crate"), at.slip(fields.text("note")))
    return told(f"crate {crate} is closed: what nobody counted in it counts as missing now")


COUNTING = (
    Act(
        "count",
        "Record how many pieces of a part lie in a crate or bag.",
        (
            *COUNTED,
            HAND,
            Field("pieces", "All that lie there, damaged and wrong ones among them.", needed=True),
            Field("damaged", "Damaged ones among them."),
            Field("wrong", "Other parts that lay where this one should."),
        ),
        _count,
    ),
    Act(
        "count-sides",
        "Record how many left and how many right pieces of a part lie in a crate or bag.",
        (
            *COUNTED,
            Field("left_part", "Number of the LEFT ones, where it is another."),
            Field("right_part", "Number of the RIGHT ones, where it is another."),
            *(
                Field(f"{side}_{name}", f"{words} {side.upper()} ones.")
                for side in SIDES
                for name, words in _NUMBERS
            ),
        ),
        _count_sides,
    ),
    Act("open-crate", "Record that a crate was opened.", (_CRATE, _NOTE), _open),
    Act("close-crate", "Record that a crate is counted to its end.", (_CRATE, _NOTE), _close),
)  # fmt: skip
