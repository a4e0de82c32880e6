"""The scan loop of a lay-out: each part identified as it is laid down, or refused in words."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from inventory.core.counted import counted
from inventory.core.errors import InventoryError
from inventory.core.items import Hand, Item, State
from inventory.core.parts.hands import hand_in_words
from inventory.core.planning.layout_roll import Answer as Said
from inventory.core.planning.layout_roll import laid_of, lay_down, missing_of, others_of
from inventory.jobs.acts import acting
from inventory.jobs.bench.finding_items import item_words
from inventory.jobs.bench.scan_meaning import MeaningKind, meaning
from inventory.jobs.bench.scanning import Answer, Verdict
from inventory.jobs.bench.undoing import undo
from inventory.jobs.planning.laying_out import begin, entry_words, laid_in, running_within
from inventory.store.ledger.names import known_hands
from inventory.store.planning.lay_outs import add_laid
from inventory.store.planning.plans import current_plan

if TYPE_CHECKING:
    from collections.abc import Callable

    from inventory.core.planning.layout_roll import Laying, RollEntry
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Act, Bench
    from inventory.jobs.bench.finding_items import Asked
    from inventory.jobs.bench.scan_meaning import Meaning

_SIDES = {Hand.LEFT: "on the LEFT side", Hand.RIGHT: "on the RIGHT side"}


@dataclass(slots=True)
class LayingDown:
    """One person laying the parts of a section out; each OK is stored before it is shown."""

    bench: Bench
    section: str
    new_slip: Callable[[], Slip]
    tally: dict[Answer, int] = field(default_factory=dict)
    _roll: tuple[RollEntry, ...] = ()
    """As it was when the session began."""
    _left: int = 0
    _waiting: Asked | None = None
    """A part whose hand was asked for."""
    _laid: list[str] = field(default_factory=list)
    """Keys of the slips of this session, newest last."""

    def __post_init__(self) -> None:
        """Begin the lay-out, or go on with the one that runs."""
        begun = begin(self.bench, self.section, self.new_slip())
        self.section = begun.section
        self._roll = tuple(line.entry for line in begun.lines)
        self._left = sum(each.pieces for each in begun.missing)

    @property
    def state(self) -> str:
        """What is to be laid down next, for the prompt."""
        if self._waiting is not None:
            return f"{self._waiting.part}: LEFT or RIGHT?"
        return f"section {self.section}, {counted(self._left, 'piece')} to lay down - next: part"

    def scan(self, text: str) -> Verdict:
        """Answer one line."""
        waiting, self._waiting = self._waiting, None
        try:
            with self.bench.store.reading() as db:
                meant = meaning(db, self.bench.kit, text)
            verdict = self._answer(meant, waiting)
        except InventoryError as error:
            verdict = Verdict(Answer.NOT_OK, error.what, error.remedy)
        self.tally[verdict.answer] = self.tally.get(verdict.answer, 0) + 1
        return verdict

    def _answer(self, meant: Meaning, waiting: Asked | None) -> Verdict:
        if meant.kind is MeaningKind.CONTROL and meant.text == "UNDO":
            return self._undo()
        if meant.kind is MeaningKind.HAND and waiting is not None:
            return self._part(replace(waiting, hand=meant.hand))
        if meant.asked is not None:
            return self._part(meant.asked)
        if meant.kind is MeaningKind.NOTHING:
            return Verdict(Answer.NOTED, "an empty line")
        return Verdict(
            Answer.NOT_OK, f"{meant.kind}, not a part", "Scan the parts of the section as laid."
        )

    def _part(self, asked: Asked) -> Verdict:
        with self.bench.store.reading() as db:
            hands = known_hands(db, self.bench.kit.id, asked.part) or {Hand.NONE}
        if asked.hand is None and len(hands) > 1:
            self._waiting = asked
            return Verdict(
                Answer.ASKED,
                f"{asked.part} comes in several hands: {', '.join(sorted(hands))}",
                "Hold it against the drawing, then scan its own label, or type L or R.",
            )
        hand = asked.hand if asked.hand is not None else next(iter(hands))
        item = Item(asked.part, hand, asked.lot or "", asked.length or 0, asked.state or State.NEW)
        slip = self.new_slip()
        with acting(self.bench, "lay down", slip) as act:
            verdict = self._laid_down(act, item)
        if verdict.answer is Answer.OK:
            self._laid.append(slip.key)
        return verdict

    def _laid_down(self, act: Act, item: Item) -> Verdict:
        running = running_within(act.db, self.bench.kit, self.section)
        if running is None:
            raise InventoryError(
                f"the lay-out of section {self.section} was ended by somebody else",
                remedy="Begin a new one.",
            )
        laid = dict(laid_in(running))
        laying = lay_down(self._roll, laid, item)
        if laying.answer is not Said.LAID or laying.entry is None:
            raise InventoryError(self._why_not(act, laying, item), remedy=_REMEDY[laying.answer])
        add_laid(act.db, self.bench.kit.id, act.recorded.id, running.id, [(item, 1)])
        laid[item] = laid.get(item, 0) + 1
        self._left = sum(each.pieces for each in missing_of(self._roll, laid))
        got = zip(self._roll, laid_of(self._roll, laid), strict=True)
        rest = sum(entry.pieces - pieces for entry, pieces in got if entry is laying.entry)
        side = _SIDES.get(item.hand, "in the middle")
        still = f", {rest} more to come" if rest else ", complete"
        return Verdict(Answer.OK, f"{entry_words(laying.entry)}: {side}{still}")

    def _why_not(self, act: Act, laying: Laying, item: Item) -> str:
        named = f"{item.part} {item_words(item)}"
        match laying.answer:
            case Said.WRONG_HAND if laying.entry is not None:
                needs = hand_in_words(laying.entry.need.hand)
                return f"this is {named}: section {self.section} needs it {needs}"
            case Said.WORKED:
                return f"{named} was trimmed or drilled: it doesn't count as new"
            case Said.ENOUGH if laying.entry and others_of(self._roll, laying.entry):
                others = others_of(self._roll, laying.entry)
                names = " or ".join(each.need.part for each in (laying.entry, *others))
                return f"one of {names} suffices, and is laid down already"
            case Said.ENOUGH:
                return f"all {named} of section {self.section} are laid down already"
            case _:
                plan = current_plan(act.db, self.bench.kit.id)
                steps = dict.fromkeys(need.step for need in plan.needs if need.part == item.part)
                used = f"; it is for step {', '.join(steps)}" if steps else ""
                return f"{item.part} isn't laid out in section {self.section}{used}"

    def _undo(self) -> Verdict:
        if not self._laid:
            return Verdict(Answer.NOT_OK, "nothing was laid down in this session yet")
        undo(self.bench, self.new_slip(), key=self._laid.pop())
        self._left += 1
        return Verdict(Answer.UNDONE, "the last part is off the table again")


_REMEDY = {
    Said.LAID: "",
    Said.WRONG_HAND: "Put it back and find the one of the other hand.",
    Said.WORKED: "Look at it with the plans; the steps need a new one.",
    Said.ENOUGH: "Look whether it was laid down twice, or is one too many.",
    Said.FOREIGN: "Put it where it belongs.",
}
