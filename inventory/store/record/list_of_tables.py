"""A lost list of tables, put back from a store begun anew.

A store's list of tables never changes after it was begun: one that the same program began has the
same pages in the same places. Where the first page shows that it is so, they are lent.
The form of pages is that of SQLite's file format (sqlite.org/fileformat2.html, sections 1.5, 1.6).
"""

from __future__ import annotations

from contextlib import closing
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

from inventory.store.opening.database import begin_store

if TYPE_CHECKING:
    from collections.abc import Iterator

_HEAD = 100
"""Bytes of the file's own head, before the first page's rows."""
_INNER, _LEAF = 5, 13
"""Kinds of a table's pages."""
_SAME = [slice(16, 24), slice(40, 48), slice(60, 64), slice(68, 72)]
"""Parts of the head that tell how a file was begun: page, cookie, format, schema, program."""


def lend_list_of_tables(copy: Path) -> bool:
    """Write the list of tables of a store begun anew into the copy; False if it isn't the same."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / "begun.kitwright"
        with closing(begin_store(str(path))):
            pass
        begun = path.read_bytes()
    page = int.from_bytes(begun[16:18], "big")
    with copy.open("r+b") as file:
        first = file.read(page)
        if first[_HEAD:] != begun[_HEAD:page] or any(first[s] != begun[s] for s in _SAME):
            return False
        for number in _pages(begun, page):
            if number > 1:
                file.seek((number - 1) * page)
                file.write(begun[(number - 1) * page : number * page])
    return True


def _pages(content: bytes, page: int) -> Iterator[int]:
    """Yield the numbers of all pages of the list of tables, those of long texts too."""
    todo = [1]
    while todo:
        number = todo.pop()
        yield number
        base = (number - 1) * page
        head = base + (_HEAD if number == 1 else 0)
        kind = content[head]
        pointers = head + (12 if kind == _INNER else 8)
        cells = [
            base + _whole(content, pointers + 2 * each, 2)
            for each in range(_whole(content, head + 3, 2))
        ]
        if kind == _INNER:
            todo += [_whole(content, cell, 4) for cell in cells]
            todo.append(_whole(content, head + 8, 4))
        elif kind == _LEAF:
            for cell in cells:
                yield from _long(content, cell, page)


def _long(content: bytes, cell: int, page: int) -> Iterator[int]:
    """Yield the pages on which a row goes on that is too long for its own."""
    size, at = _number(content, cell)
    _, at = _number(content, at)
    most, least = page - 35, (page - 12) * 32 // 255 - 23
    if size <= most:
        return
    here = least + (size - least) % (page - 4)
    following = _whole(content, at + (here if here <= most else least), 4)
    while following:
        yield following
        following = _whole(content, (following - 1) * page, 4)


def _whole(content: bytes, at: int, size: int) -> int:
    return int.from_bytes(content[at : at + size], "big")


def _number(content: bytes, at: int) -> tuple[int, int]:
    """Return a number of seven bits a byte, and where it ends; sizes take three bytes at most."""
    value = 0
    while True:
        byte = content[at]
        value, at = value << 7 | byte & 0x7F, at + 1
        if not byte & 0x80:
            return value, at
