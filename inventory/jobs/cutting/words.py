"""A cutting plan in words: which stick, what to buy and how sure that is, what doesn't come out."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from inventory.core.measures.lengths import show_length
from inventory.core.measures.money import Price

if TYPE_CHECKING:
    from collections.abc import Iterator

    from inventory.core.cutting.job import CutStick
    from inventory.jobs.cutting.sticks import PlannedStick, ProfilePlan


class StickWords(NamedTuple):
    """One planned stick, in the words of the bench."""

    name: str
    """Where it lies, or that it is to be bought."""
    stock: str
    """Profile, material and temper in words."""
    stick: CutStick
    kept: bool
    """Whether the rest is long enough to keep."""


def stick_words(profile: ProfilePlan) -> Iterator[StickWords]:
    """Yield the sticks of a plan, in its order."""
    stock = f"{profile.printed} {profile.description}".strip()
    for planned in profile.sticks:
        stick = planned.stick
        kept = stick.remnant >= profile.own.least_remnant
        yield StickWords(_name(planned), stock, stick, kept)


def _name(planned: PlannedStick) -> str:
    if planned.place is None or planned.item is None:
        return "BUY"
    lot = f" lot {planned.item.lot}" if planned.item.lot else ""
    owned = planned.stick.stock.owned.name.lower()
    return f"{owned} from {planned.place.code}{lot}"


def bought_words(profile: ProfilePlan) -> str:
    """Return what has to be bought, and how sure it is that nothing less would do."""
    bought = [each.stick.stock.length for each in profile.sticks if each.place is None]
    counted = ", ".join(
        f"{bought.count(length)} x {show_length(length)}" for length in dict.fromkeys(bought)
    )
    words = f"buy {counted}" if counted else "nothing is to be bought"
    if profile.by_price and bought:
        words += f" for {Price(profile.plan.cost, profile.currency)}"
    return f"{words}; {_sureness(profile)}"


def _sureness(profile: ProfilePlan) -> str:
    plan = profile.plan
    if plan.proved:
        return "proved: no plan buys less"
    more = plan.cost - plan.bound
    shown = str(Price(more, profile.currency)) if profile.by_price else show_length(more)
    return f"not proved best: at most {shown} more than the best possible"


def uncut_words(profile: ProfilePlan) -> Iterator[str]:
    """Return a line for each kind of piece that doesn't come out of the stock, and why."""
    longest = profile.longest
    for piece in profile.too_long:
        why = (
            f"the longest stick is {show_length(longest)}"
            if longest
            else "none lies in a bin, and no length to buy is named"
        )
        yield f"{piece.quantity} x {_piece_words(profile, piece.name)}: {why}"
    left = [piece.name for piece in profile.plan.uncut]
    for name in dict.fromkeys(left):
        why = "the sticks don't suffice"
        yield f"{left.count(name)} x {_piece_words(profile, name)}: {why}"


def _piece_words(profile: ProfilePlan, name: str) -> str:
    need = profile.needs[name]
    return f"{show_length(need.length)} for step {need.step}"
