"""The scan loop: bin, part, step; each line gets one answer, each OK is stored before it shows."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from datetime import timedelta
from enum import StrEnum
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError
from inventory.core.frozen import frozen
from inventory.core.items import Measure, part_key
from inventory.core.measures.amounts import measured
from inventory.core.places import PlaceKind
from inventory.core.scanning.issuing import TooManyError
from inventory.jobs.bench.finding_items import (
    SeveralKindsError,
    in_measure,
    item_lying,
    item_words,
)
from inventory.jobs.bench.issuing import ExpiredError, Issue, issuable_step, issue
from inventory.jobs.bench.scan_meaning import MeaningKind, meaning
from inventory.jobs.bench.scan_state import ScanState
from inventory.jobs.bench.undoing import undo
from inventory.store.devices import last_key

if TYPE_CHECKING:
    from collections.abc import Callable

    from inventory.core.places import Place
    from inventory.core.record.ledger import Movement
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench
    from inventory.jobs.bench.finding_items import Asked
    from inventory.jobs.bench.scan_meaning import Meaning

MOST_DIGITS = 4
SAME_TRIGGER = 1.0
"""Seconds within which the same code again may be one trigger pulled twice (scanners that type
pull twice within half a second to a second; common practice, no source)."""
SAME_SHIFT = timedelta(hours=12)
"""What a named scanner issued longer ago isn't undone by its UNDO, but by number."""

_EXPIRED = "past its date: YES was scanned"
_WHICH = "Scan the part's own label, or type L or R."


class Answer(StrEnum):
    """The verdict words."""

    OK = "OK"
    NOT_OK = "NOT OK"
    NOTED = "NOTED"
    ASKED = "QUESTION"
    UNDONE = "UNDONE"


@frozen
class Verdict:
    """What is answered to one scan."""

    answer: Answer
    words: str
    remedy: str = ""


@dataclass(slots=True)
class ScanSession:
    """One person at one scanner: what was scanned before decides what the next scan does."""

    bench: Bench
    new_slip: Callable[[], Slip]
    at: ScanState = field(default_factory=ScanState)
    tally: dict[Answer, int] = field(default_factory=dict)
    _issued: list[str] = field(default_factory=list)
    """Keys of the slips this session recorded, newest last."""

    def scan(self, text: str, at: float | None = None) -> Verdict:
        """Answer one line; `at` is a clock in seconds, None where lines are piped."""
        verdict = self._verdict(text, at)
        self.tally[verdict.answer] = self.tally.get(verdict.answer, 0) + 1
        return verdict

    def _verdict(self, text: str, at: float | None) -> Verdict:
        try:
            with self.bench.store.reading() as db:
                meant = meaning(db, self.bench.kit, text)
        except InventoryError as error:  # nothing was understood, so that all that is set stays
            self.at = replace(self.at, question=None, last="", last_at=None)
            return Verdict(Answer.NOT_OK, error.what, error.remedy)
        try:
            return self._twice(meant, text.strip(), at) or self._answer(meant)
        except InventoryError as error:
            self.at = replace(self.at, part=None, pieces=0, last="", last_at=None)
            return Verdict(Answer.NOT_OK, error.what, error.remedy)

    @property
    def state(self) -> str:
        """What is set, and what is to be scanned next."""
        return self.at.words

    def _twice(self, meant: Meaning, text: str, at: float | None) -> Verdict | None:
        """Ask whether a trigger was pulled twice where that would act twice; the third counts."""
        before = self.at
        self.at = replace(before, last=text, last_at=at)
        if at is None or before.last_at is None or not self._acts_again(meant):
            return None
        if before.last != text or not 0 <= at - before.last_at <= SAME_TRIGGER:
            return None
        self.at = replace(before, last="", last_at=None)
        return Verdict(
            Answer.ASKED, "the same code again within a second", "Scan it once more if it counts."
        )

    def _acts_again(self, meant: Meaning) -> bool:
        """Say whether a second time would do more than the first."""
        match meant.kind:
            case MeaningKind.CONTROL:
                return meant.text == "UNDO" or meant.text.startswith("Q")
            case MeaningKind.PART:
                return bool(self.at.step)
            case MeaningKind.STEP:
                return part_key(meant.text) != part_key(self.at.step)
            case _:
                return False

    def _answer(self, meant: Meaning) -> Verdict:
        question, self.at = self.at.question, replace(self.at, question=None)
        match meant.kind:
            case MeaningKind.CONTROL:
                return self._control(meant.text, question)
            case MeaningKind.HAND:
                return self._hand(meant, question)
            case MeaningKind.TEST_CARD:
                return Verdict(Answer.OK, "the scanner sends every character as printed")
            case MeaningKind.NOTHING:
                return Verdict(Answer.NOTED, "an empty line")
            case _:
                return self._named(meant)

    def _named(self, meant: Meaning) -> Verdict:
        if meant.place is not None:
            return self._place(meant.place)
        if meant.asked is not None:
            return self._part(meant.asked)
        if meant.kind is MeaningKind.STEP:
            return self._step(meant.text)
        return self._quantity(meant.text)

    def _control(self, word: str, question: Issue | None) -> Verdict:
        match word:
            case "UNDO":
                return self._undo()
            case "DONE":
                self.at = ScanState()
                return Verdict(Answer.NOTED, "step, bin and part are put down")
            case "CLEAR":
                self.at = replace(self.at, pieces=0, part=None)
                return Verdict(Answer.NOTED, "quantity and part are cleared")
            case "YES":
                if question is None:
                    return Verdict(Answer.NOT_OK, "there is no question to say YES to")
                return self._issue(question)
            case _:
                return self._quantity(f"{self.at.pieces or ''}{word.removeprefix('Q')}")

    def _quantity(self, digits: str) -> Verdict:
        if len(digits) > MOST_DIGITS:
            self.at = replace(self.at, pieces=0)
            return Verdict(
                Answer.NOT_OK,
                "at most 9999 pieces in one go; the quantity is cleared",
                "Scan the digits again.",
            )
        self.at = replace(self.at, pieces=int(digits))
        return Verdict(Answer.NOTED, f"QUANTITY {self.at.pieces}")

    def _hand(self, meant: Meaning, question: Issue | None) -> Verdict:
        if question is not None:
            asked = replace(question.asked, hand=meant.hand)
            return self._issue(replace(question, asked=asked, over=False, expired=False))
        if self.at.part is not None:
            part = replace(self.at.part, hand=meant.hand)
            self.at = replace(self.at, part=part)
            return Verdict(Answer.NOTED, f"{part.part}, the {str(meant.hand).upper()} one")
        return Verdict(Answer.NOT_OK, "LEFT or RIGHT of what?", "Scan the part first.")

    def _place(self, place: Place) -> Verdict:
        self.at = replace(self.at, bin=place, part=None)
        held = ": nothing here can be issued" if place.kind is PlaceKind.HOLD else ""
        return Verdict(Answer.NOTED, str(place).upper() + held)

    def _step(self, code: str) -> Verdict:
        with self.bench.store.reading() as db:
            step = issuable_step(db, self.bench.kit, code)
        if self.at.part is None:
            self.at = replace(self.at, step=step)
            return Verdict(Answer.NOTED, f"STEP {step}: every part goes there now")
        return self._issue(self._wanted(self.at.part, step))

    def _part(self, asked: Asked) -> Verdict:
        if self.at.step:
            return self._issue(self._wanted(asked, self.at.step))
        bin_ = self.at.bin
        if bin_ is None:
            return Verdict(Answer.NOT_OK, f"{asked.part}: from which bin?", "Scan the bin first.")
        self.at = replace(self.at, part=asked)
        try:
            with self.bench.store.reading() as db:
                lies = item_lying(db, self.bench.kit, asked, bin_)
                there = in_measure(db, self.bench.kit, lies.item.part, lies.quantity)
        except SeveralKindsError as error:
            return Verdict(Answer.ASKED, error.what, _WHICH)
        return Verdict(
            Answer.NOTED,
            f"{lies.item.part} {item_words(lies.item)}: {there} in {bin_.code}",
        )

    def _wanted(self, asked: Asked, step: str) -> Issue:
        return Issue(
            asked=asked, pieces=self.at.pieces or 1, step=step, origin=self.at.bin, by_piece=True
        )

    def _issue(self, wanted: Issue) -> Verdict:
        slip = self.new_slip()
        if wanted.expired:
            slip = replace(slip, note=f"{_EXPIRED} {slip.note}".strip())
        try:
            move = issue(self.bench, wanted, slip)
        except TooManyError as error:
            self.at = replace(self.at, question=replace(wanted, over=True))
            return Verdict(Answer.NOT_OK, error.what, "Scan YES to record them all the same.")
        except ExpiredError as error:
            self.at = replace(self.at, question=replace(wanted, expired=True))
            return Verdict(Answer.NOT_OK, error.what, "Scan YES only if whoever decides allows it.")
        except SeveralKindsError as error:
            self.at = replace(self.at, question=wanted)
            return Verdict(Answer.ASKED, error.what, _WHICH)
        finally:
            self.at = replace(self.at, part=None, pieces=0)
        self._issued.append(slip.key)
        return Verdict(Answer.OK, issued_words(move))

    def _undo(self) -> Verdict:
        slip = self.new_slip()
        key = self._issued[-1] if self._issued else self._last_of(slip)
        if not key:
            return Verdict(
                Answer.NOT_OK,
                "nothing was issued in this session yet",
                "Older acts: kitwright history, then kitwright undo ACT.",
            )
        entry = undo(self.bench, slip, key=key)
        self._issued = self._issued[:-1]
        return Verdict(Answer.UNDONE, issued_words(entry.movements[0]))

    def _last_of(self, slip: Slip) -> str:
        """Return the key of a named scanner's last issue, so that UNDO outlives a restart."""
        if not slip.device:
            return ""
        since = slip.recorded_at - SAME_SHIFT
        with self.bench.store.reading() as db:
            return last_key(db, self.bench.kit.id, slip.device, "issue", since)


def issued_words(move: Movement, measure: Measure = Measure.PIECES) -> str:
    """Return a movement as the bench says it: how much, part, hand, from where to where."""
    hand = item_words(move.item)
    told = "" if hand == "without a hand" else f" {hand}"
    quantity = measured(move.quantity, measure)
    return f"{quantity} x {move.item.part}{told} from {move.origin} to {move.destination}"
