"""The scan loop: bin, part, step; each line gets one answer, each OK is stored before it shows."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from enum import StrEnum
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError
from inventory.core.issuing import TooManyError
from inventory.core.places import PlaceKind
from inventory.jobs.finding_items import SeveralKindsError, item_lying, item_words
from inventory.jobs.issuing import Issue, issuable_step, issue
from inventory.jobs.scan_meaning import MeaningKind, meaning
from inventory.jobs.undoing import undo

if TYPE_CHECKING:
    from collections.abc import Callable

    from inventory.core.ledger import Movement
    from inventory.core.places import Place
    from inventory.core.slips import Slip
    from inventory.jobs.acts import Bench
    from inventory.jobs.finding_items import Asked
    from inventory.jobs.scan_meaning import Meaning

MOST_DIGITS = 4
SAME_TRIGGER = 1.0
"""Seconds within which the same code again may be one trigger pulled twice."""


class Answer(StrEnum):
    """The verdict words."""

    OK = "OK"
    NOT_OK = "NOT OK"
    NOTED = "NOTED"
    ASKED = "QUESTION"
    UNDONE = "UNDONE"


@dataclass(frozen=True, slots=True)
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
    bin: Place | None = None
    step: str = ""
    """The step that all parts go to, until another one is scanned or DONE."""
    part: Asked | None = None
    pieces: int = 0
    """Quantity for the next part; 0 where nothing was said: one piece."""
    tally: dict[Answer, int] = field(default_factory=dict)
    _question: Issue | None = None
    """An issue that waits for YES or for a hand."""
    _last: tuple[str, float] = ("", float("-inf"))
    _issued: list[str] = field(default_factory=list)
    """Keys of the slips this session recorded, newest last."""

    def scan(self, text: str, at: float | None = None) -> Verdict:
        """Answer one line; `at` is a clock in seconds, None where lines are piped."""
        try:
            with self.bench.store.reading() as db:
                meant = meaning(db, self.bench.kit, text)
            verdict = self._twice(meant, text, at) or self._answer(meant)
        except InventoryError as error:
            self.pieces = 0
            verdict = Verdict(Answer.NOT_OK, error.what, error.remedy)
        self.tally[verdict.answer] = self.tally.get(verdict.answer, 0) + 1
        return verdict

    @property
    def state(self) -> str:
        """What is set, and what is to be scanned next."""
        told = [f"step {self.step}"] if self.step else []
        told += [f"bin {self.bin.code}"] if self.bin else []
        told += [self.part.part] if self.part else []
        told += [f"{self.pieces} pieces"] if self.pieces else []
        if self.part:
            next_ = "step"
        elif self.bin or self.step:
            next_ = "part"
        else:
            next_ = "bin or step"
        return f"{', '.join(told)} - next: {next_}" if told else f"next: {next_}"

    def _answer(self, meant: Meaning) -> Verdict:
        question, self._question = self._question, None
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

    def _twice(self, meant: Meaning, text: str, at: float | None) -> Verdict | None:
        """Ask whether a trigger was pulled twice; the third time it counts."""
        last, self._last = self._last, (text, at if at is not None else float("-inf"))
        if at is None or meant.kind is not MeaningKind.PART or not self.step:
            return None
        if last[0] != text or at - last[1] > SAME_TRIGGER:
            return None
        self._last = ("", float("-inf"))
        return Verdict(
            Answer.ASKED, "the same code again within a second", "Scan it once more if it counts."
        )

    def _control(self, word: str, question: Issue | None) -> Verdict:
        match word:
            case "UNDO":
                return self._undo()
            case "DONE":
                self.step, self.bin, self.part, self.pieces = "", None, None, 0
                return Verdict(Answer.NOTED, "step, bin and part are put down")
            case "CLEAR":
                self.pieces, self.part = 0, None
                return Verdict(Answer.NOTED, "quantity and part are cleared")
            case "YES":
                if question is None:
                    return Verdict(Answer.NOT_OK, "there is no question to say YES to")
                return self._issue(replace(question, over=True))
            case _:
                return self._quantity(f"{self.pieces or ''}{word.removeprefix('Q')}")

    def _quantity(self, digits: str) -> Verdict:
        if len(digits) > MOST_DIGITS:
            self.pieces = 0
            return Verdict(
                Answer.NOT_OK, "at most 9999 pieces in one go", "Scan CLEAR, then again."
            )
        self.pieces = int(digits)
        return Verdict(Answer.NOTED, f"QUANTITY {self.pieces}")

    def _hand(self, meant: Meaning, question: Issue | None) -> Verdict:
        if question is not None:
            return self._issue(replace(question, asked=replace(question.asked, hand=meant.hand)))
        if self.part is not None:
            self.part = replace(self.part, hand=meant.hand)
            return Verdict(Answer.NOTED, f"{self.part.part}, the {meant.hand} one")
        return Verdict(Answer.NOT_OK, "LEFT or RIGHT of what?", "Scan the part first.")

    def _place(self, place: Place) -> Verdict:
        self.bin, self.part = place, None
        held = ": nothing here can be issued" if place.kind is PlaceKind.HOLD else ""
        return Verdict(Answer.NOTED, str(place).upper() + held)

    def _step(self, code: str) -> Verdict:
        with self.bench.store.reading() as db:
            step = issuable_step(db, self.bench.kit, code)
        if self.part is None:
            self.step = step
            return Verdict(Answer.NOTED, f"STEP {step}: every part goes there now")
        return self._issue(self._wanted(self.part, step))

    def _part(self, asked: Asked) -> Verdict:
        if self.step:
            return self._issue(self._wanted(asked, self.step))
        if self.bin is None:
            return Verdict(Answer.NOT_OK, f"{asked.part}: from which bin?", "Scan the bin first.")
        with self.bench.store.reading() as db:
            lies = item_lying(db, self.bench.kit, asked, self.bin)
        self.part = asked
        return Verdict(
            Answer.NOTED,
            f"{lies.item.part} {item_words(lies.item)}: {lies.quantity} in {self.bin.code}",
        )

    def _wanted(self, asked: Asked, step: str) -> Issue:
        return Issue(asked=asked, pieces=self.pieces or 1, step=step, origin=self.bin)

    def _issue(self, wanted: Issue) -> Verdict:
        slip = self.new_slip()
        try:
            move = issue(self.bench, wanted, slip)
        except TooManyError as error:
            self._question = wanted
            return Verdict(Answer.NOT_OK, error.what, "Scan YES to record them all the same.")
        except SeveralKindsError as error:
            self._question = wanted
            return Verdict(Answer.ASKED, error.what, "Scan the part's own label, or type L or R.")
        finally:
            self.part, self.pieces = None, 0
        self._issued.append(slip.key)
        return Verdict(Answer.OK, issued_words(move))

    def _undo(self) -> Verdict:
        if not self._issued:
            return Verdict(Answer.NOT_OK, "nothing was recorded in this session yet")
        entry = undo(self.bench, self.new_slip(), key=self._issued[-1])
        self._issued.pop()
        return Verdict(Answer.UNDONE, issued_words(entry.movements[0]))


def issued_words(move: Movement) -> str:
    """Return a movement as the bench says it: pieces, part, hand, from where to where."""
    hand = item_words(move.item)
    told = "" if hand == "without a hand" else f" {hand}"
    return f"{move.quantity} x {move.item.part}{told} from {move.origin} to {move.destination}"
