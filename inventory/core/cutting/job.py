"""Cutting pieces from stock: what is wanted, what there is, and what a plan says."""

from __future__ import annotations

from dataclasses import field
from enum import IntEnum
from typing import TYPE_CHECKING

from inventory.core.errors import Problem
from inventory.core.frozen import frozen
from inventory.core.measures.lengths import show_length
from inventory.core.planning.workshop import Saw

if TYPE_CHECKING:
    from collections.abc import Iterator


class Owned(IntEnum):
    """Whether a stick lies there already: what is used up first comes first."""

    REMNANT = 0
    BAR = 1
    TO_BUY = 2


@frozen
class CutPiece:
    """Pieces of one length that are wanted; nanometres."""

    length: int
    quantity: int
    name: str = ""
    """What they are for, for instance the step and find number."""


@frozen(kw_only=True)
class CutStock:
    """Sticks of one length, all of one profile, material and temper; nanometres."""

    length: int
    quantity: int | None = None
    """None where as many can be bought as are wanted."""
    owned: Owned = Owned.TO_BUY
    price: int | None = None
    """Of one stick to buy, in millionths of the currency."""
    currency: str = ""
    """The price's, where it was said; prices that are compared are all in one."""
    name: str = ""


@frozen(kw_only=True)
class CutJob:
    """All that is to be cut from one profile."""

    pieces: tuple[CutPiece, ...]
    stock: tuple[CutStock, ...]
    saw: Saw = field(default_factory=Saw)
    least_remnant: int = 0
    """Nanometres; a shorter rest is scrap."""

    @property
    def by_price(self) -> bool:
        """Say whether prices decide what to buy: only if each stick to buy has one."""
        to_buy = [stock for stock in self.stock if stock.owned is Owned.TO_BUY]
        return bool(to_buy) and all(stock.price is not None for stock in to_buy)

    def cost(self, stock: CutStock) -> int:
        """Return what one stick costs: its price, else its length; nothing if it is owned."""
        if stock.owned is not Owned.TO_BUY:
            return 0
        return (stock.price or 0) if self.by_price else stock.length

    def room(self, stock: CutStock) -> int:
        """Return the room on a stick where every piece takes its length and one kerf.

        Pieces fit if their lengths and a kerf between each two stay within the stick less its
        trims; a kerf added to stick and pieces alike says the same.
        """
        return stock.length - self.saw.trim + self.saw.kerf


@frozen
class CutStick:
    """One stick and the pieces that come from it, longest first; nanometres."""

    stock: CutStock
    pieces: tuple[CutPiece, ...]
    """Each with the quantity 1."""
    saw: Saw

    @property
    def left(self) -> int:
        """What is left behind the last piece, before it is cut off."""
        wanted = sum(piece.length for piece in self.pieces)
        between = self.saw.kerf * max(0, len(self.pieces) - 1)
        return self.stock.length - self.saw.trim - wanted - between

    @property
    def remnant(self) -> int:
        """What is left when the last piece is cut off too."""
        return max(0, self.left - self.saw.kerf) if self.pieces else self.stock.length

    @property
    def sawn(self) -> int:
        """What the saw and the trims take: stick = pieces + sawn + remnant, to the nanometre."""
        return self.stock.length - sum(piece.length for piece in self.pieces) - self.remnant


@frozen(kw_only=True)
class CutPlan:
    """Which piece from which stick, what is to be bought, and how sure it is the least."""

    sticks: tuple[CutStick, ...]
    cost: int
    """Of what is bought: millionths of the currency, or nanometres where prices are unknown."""
    bound: int
    """No plan costs less."""
    uncut: tuple[CutPiece, ...] = ()
    """What doesn't come out of the stock, and nothing to buy is named that would do."""
    uncut_bound: int = 0
    """No plan leaves fewer pieces uncut."""

    @property
    def proved(self) -> bool:
        """Say whether no plan is better."""
        left = sum(piece.quantity for piece in self.uncut)
        return left == self.uncut_bound and self.cost == self.bound


def check_cut_job(job: CutJob) -> list[Problem]:
    """Return what keeps a job from being planned."""
    return [*_piece_problems(job), *_stock_problems(job)]


def _piece_problems(job: CutJob) -> Iterator[Problem]:
    longest = max((stock.length for stock in job.stock), default=0)
    for piece in job.pieces:
        where = piece.name or show_length(piece.length)
        if piece.length <= 0 or piece.quantity <= 0:
            yield Problem(
                f"{piece.quantity} pieces of {show_length(piece.length)}",
                where,
                "Ask for 1 piece or more of some length",
            )
        elif job.saw.kerf >= piece.length:
            yield Problem(
                f"the kerf of {show_length(job.saw.kerf)} is as wide as the piece of "
                f"{show_length(piece.length)} is long",
                where,
                "Give the kerf of your own saw",
            )
        elif job.stock and job.room(_of_length(longest)) < piece.length + job.saw.kerf:
            yield Problem(
                f"no stick gives a piece of {show_length(piece.length)}: the longest is "
                f"{show_length(longest)}, less {show_length(job.saw.trim)} for the ends",
                where,
                "Name a longer stick",
            )


def _of_length(length: int) -> CutStock:
    return CutStock(length=length)


def _stick_words(stock: CutStock) -> str:
    number = "" if stock.quantity is None else f", {stock.quantity} of them"
    price = "" if stock.price is None else f", price {stock.price} millionths"
    return f"a stick of {show_length(stock.length)}{number}{price}"


def _stock_problems(job: CutJob) -> Iterator[Problem]:
    if job.saw.kerf < 0 or job.saw.trim < 0:
        yield Problem("kerf and trim are negative", "saw", "Give 0 or more")
    if not job.stock:
        yield Problem("there is nothing to cut from", "stock", "Name a stick, or a length sold")
    for stock in job.stock:
        bad = stock.length <= 0 or (stock.quantity is not None and stock.quantity < 0)
        if bad or (stock.price or 0) < 0:
            yield Problem(
                _stick_words(stock),
                stock.name or show_length(stock.length),
                "Give a length, and a price of 0 or more",
            )
        if stock.owned is not Owned.TO_BUY and stock.quantity is None:
            yield Problem(
                "how many of these lie there isn't said",
                stock.name or show_length(stock.length),
                "Count them",
            )
