"""Patterns that are put together when they are first used.

Most rows of most lists need few of them, and all of them together take longer to put together
than reading a short list.
"""

from __future__ import annotations

import re
from typing import Any, cast


def pattern(words: str, flags: int = 0) -> re.Pattern[str]:
    """Return a pattern for a module's own use; a mistake in it shows when it is first used."""
    return cast("re.Pattern[str]", _Later(words, flags))


class _Later:
    """Stands for a pattern; what is asked of it once is the pattern's own from then on."""

    def __init__(self, words: str, flags: int) -> None:
        self._as_written = words, flags

    def __getattr__(self, name: str) -> Any:  # noqa: ANN401  whatever a pattern has
        found = getattr(re.compile(*self._as_written), name)
        setattr(self, name, found)
        return found
