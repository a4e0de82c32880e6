"""A disk as it may be after a power cut: what was synced is there, of the rest some, torn.

Files are kept by what they are, not by their names: a journal that is made again is another file,
and the old one can come back if its removal was never synced. Syncing a file makes its own name
durable; syncing the folder makes all names durable. 512 bytes are written whole or not at all.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import pairwise
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import random
    from collections.abc import Mapping

SECTOR = 512


@dataclass(eq=False)
class File:
    """One file, whatever its name."""

    durable: bytes = b""
    pending: list[tuple[int, bytes | None]] = field(default_factory=list)
    """Writes since the last sync: where, and what; None cuts the file off there."""

    def sync(self) -> None:
        """Make all that was written durable."""
        self.durable = applied(self.durable, self.pending)
        self.pending = []

    def after_cut(self, chance: random.Random) -> bytes:
        """Return what may be left: none, all, or a part of what wasn't synced."""
        how = chance.randrange(3)
        if how == 0 or not self.pending:
            return self.durable
        if how == 1:
            return applied(self.durable, self.pending)
        return applied(self.durable, [each for one in self.pending for each in torn(one, chance)])


def torn(write: tuple[int, bytes | None], chance: random.Random) -> list[tuple[int, bytes | None]]:
    """Return those sectors of a write that reached the disk."""
    start, content = write
    if content is None:
        return [write] if chance.random() < 0.5 else []
    cuts = [0, *range(SECTOR - start % SECTOR, len(content), SECTOR), len(content)]
    pieces = pairwise(cuts)
    return [(start + low, content[low:high]) for low, high in pieces if chance.random() < 0.5]


def applied(content: bytes, writes: list[tuple[int, bytes | None]]) -> bytes:
    """Return a file's content after these writes."""
    whole = bytearray(content)
    for start, written in writes:
        if written is None:
            del whole[start:]
            whole.extend(bytes(start - len(whole)))
        else:
            whole.extend(bytes(max(0, start - len(whole))))
            whole[start : start + len(written)] = written
    return bytes(whole)


@dataclass
class Disk:
    """A folder of files, with names that may not be durable yet."""

    files: dict[str, File]
    durable_names: dict[str, File] = field(default_factory=dict)
    changes: list[tuple[str, File | None]] = field(default_factory=list)
    """Names given (or taken away: None) since the folder was last synced."""

    @classmethod
    def holding(cls, contents: Mapping[str, bytes]) -> Disk:
        """Return a disk on which these files are durable."""
        files = {name: File(content) for name, content in contents.items()}
        return cls(dict(files), dict(files))

    def open(self, name: str, *, create: bool, cut: bool) -> None:
        """Make the file if it isn't there and should be."""
        if name not in self.files:
            if not create:
                return
            self.files[name] = File()
            self.changes.append((name, self.files[name]))
        if cut:
            self.files[name].pending.append((0, None))

    def write(self, name: str, start: int, content: bytes) -> None:
        """Write bytes into a file."""
        self.files[name].pending.append((start, content))

    def cut_off(self, name: str, size: int) -> None:
        """Cut a file off."""
        self.files[name].pending.append((size, None))

    def unlink(self, name: str) -> None:
        """Take a name away."""
        if self.files.pop(name, None) is not None:
            self.changes.append((name, None))

    def rename(self, old: str, new: str) -> None:
        """Give a file another name, in one step."""
        self.files[new] = self.files.pop(old)
        self.changes += [(new, self.files[new]), (old, None)]

    def sync(self, name: str) -> None:
        """Sync a file: its content, and its own name."""
        file = self.files[name]
        file.sync()
        if (name, file) in self.changes:
            self.changes = [each for each in self.changes if each[0] != name]
            self.durable_names[name] = file

    def sync_folder(self) -> None:
        """Sync all names."""
        self.durable_names = dict(self.files)
        self.changes = []

    def after_cut(self, chance: random.Random) -> dict[str, bytes]:
        """Return the files that may be found after the power comes back."""
        names = dict(self.durable_names)
        for name, file in self.changes[: chance.randint(0, len(self.changes))]:
            if file is None:
                names.pop(name, None)
            else:
                names[name] = file
        return {name: file.after_cut(chance) for name, file in names.items()}
