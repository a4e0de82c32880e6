"""What can't be printed well, and what to do about it."""

from __future__ import annotations


class LabelError(Exception):
    """A label, stock or printer setting that would come out badly; nothing was drawn."""

    def __init__(self, what: str, remedy: str) -> None:
        super().__init__(f"{what}. {remedy}" if remedy else what)
        self.what = what
        self.remedy = remedy
