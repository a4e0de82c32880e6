"""Pieces moved over the network: put away, held, counted again, issued, taken back, scrapped."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from inventory.jobs.bench.finding_items import Taking
from inventory.jobs.bench.issuing import Issue, issue, scrap, take_back
from inventory.jobs.bench.place_names import place_named
from inventory.jobs.bench.putting_away import Putting, add_bins, hold, put, recount, release
from inventory.web.acts.act import Act, told, told_moves
from inventory.web.fields import NEW_PART, Field, Kind

if TYPE_CHECKING:
    from inventory.web.fields import Fields
    from inventory.web.visit import Visit

_PLACES = "A bin, `crate 2/H1`, `step 10-02`, hold, bought, made or opening."
_PART = (
    Field("part", "Part number as printed.", needed=True),
    Field("hand", "left, right, either or none.", Kind.HAND),
    Field("lot", "Lot or batch number."),
    Field("length", "Of each piece, as `48in` or `1219.2mm`."),
    Field("worked", "Only the trimmed or drilled ones.", Kind.YES),
)
_PIECES = Field("pieces", "How many, or how much.", Kind.WHOLE, needed=True)
_FROM = Field("from", _PLACES, needed=True)
_TO = Field("to", "The bin they go into.", needed=True)
_WHY = Field("why", "The reason, and who decided it.", needed=True)
_NOTE = Field("why", "Anything worth knowing.")


def _taking(at: Visit, fields: Fields) -> Taking:
    origin = place_named(at.bench, fields.text("from"))
    return Taking(fields.asked(), fields.amount(at.bench), origin)


def _add_bins(at: Visit, fields: Fields) -> dict[str, Any]:
    names = fields.text("names").replace(",", " ").split()
    codes = add_bins(at.bench, names, fields.text("shelf"), at.slip())
    return told(f"{len(codes)} added: {', '.join(codes)}")


def _put(at: Visit, fields: Fields) -> dict[str, Any]:
    putting = Putting(_taking(at, fields), fields.text("to"))
    return told_moves(at, put(at.bench, [putting], at.slip(fields.text("why"))))


def _hold(at: Visit, fields: Fields) -> dict[str, Any]:
    return told_moves(at, [hold(at.bench, _taking(at, fields), at.slip(fields.text("why")))])


def _release(at: Visit, fields: Fields) -> dict[str, Any]:
    putting = Putting(_taking(at, fields), fields.text("to"))
    return told_moves(at, [release(at.bench, putting, at.slip(fields.text("why")))])


def _recount(at: Visit, fields: Fields) -> dict[str, Any]:
    counted = [(fields.asked(), fields.amount(at.bench))]
    moves = recount(at.bench, fields.text("bin"), counted, at.slip(fields.text("why")))
    return told_moves(at, moves) if moves else told("the record agrees with the count")


def _issue(at: Visit, fields: Fields) -> dict[str, Any]:
    origin = fields.text("from")
    wanted = Issue(
        asked=fields.asked(),
        pieces=fields.amount(at.bench),
        step=fields.text("step"),
        origin=place_named(at.bench, origin) if origin else None,
        over=fields.yes("over"),
        expired=fields.yes("expired"),
    )
    return told_moves(at, [issue(at.bench, wanted, at.slip(fields.text("why")))])


def _take_back(at: Visit, fields: Fields) -> dict[str, Any]:
    moves = take_back(
        at.bench,
        _taking(at, fields),
        fields.text("to"),
        at.slip(fields.text("why")),
        worked=fields.yes("now_worked"),
    )
    return told_moves(at, moves)


def _scrap(at: Visit, fields: Fields) -> dict[str, Any]:
    return told_moves(at, [scrap(at.bench, _taking(at, fields), at.slip(fields.text("why")))])


STOCK = (
    Act(
        "add-bins",
        "Add bins, drawers, shelves or hooks.",
        (
            Field("names", "B-01, or B-01..B-12, several with blanks between.", needed=True),
            Field("shelf", "Where they stand or hang."),
        ),
        _add_bins,
    ),
    Act("put", "Put pieces into a bin.", (*_PART, NEW_PART, _PIECES, _FROM, _TO, _NOTE), _put),
    Act("hold", "Hold pieces back: they can't be issued.", (*_PART, _PIECES, _FROM, _WHY), _hold),
    Act(
        "release",
        "Put held pieces into a bin again.",
        (*_PART, _PIECES, _FROM, _TO, _WHY),
        _release,
    ),
    Act(
        "recount",
        "Make the record agree with what was counted in a bin.",
        (*_PART, NEW_PART, _PIECES, Field("bin", "The bin that was counted.", needed=True), _NOTE),
        _recount,
    ),
    Act(
        "issue",
        "Record pieces as issued to a step.",
        (
            *_PART,
            _PIECES,
            Field("step", "The step's code.", needed=True),
            Field("from", "The bin; empty where the part lies in one bin only."),
            Field("over", "Record them even where the step needs fewer.", Kind.YES),
            Field("expired", "Though the lot is past its date; say who decided.", Kind.YES),
            _NOTE,
        ),
        _issue,
    ),
    Act(
        "take-back",
        "Record pieces as back from a step.",
        (
            *_PART,
            _PIECES,
            _FROM,
            _TO,
            Field("now_worked", "They were trimmed or drilled.", Kind.YES),
            _NOTE,
        ),
        _take_back,
    ),
    Act("scrap", "Record pieces as scrapped.", (*_PART, _PIECES, _FROM, _WHY), _scrap),
)
