"""What is judged by a text alone, judged once for each text."""

from __future__ import annotations

from typing import TYPE_CHECKING, Generic, TypeVar

if TYPE_CHECKING:
    from collections.abc import Callable

Key = TypeVar("Key")
Verdict = TypeVar("Verdict")


class Judged(dict[Key, Verdict], Generic[Key, Verdict]):
    """Verdicts by what they are about; a list says the same things again and again."""

    def __init__(self, judge: Callable[[Key], Verdict]) -> None:
        """Ask `judge` about each text that wasn't met before."""
        super().__init__()
        self._judge = judge

    def __missing__(self, key: Key) -> Verdict:
        """Judge, and remember."""
        verdict = self[key] = self._judge(key)
        return verdict
