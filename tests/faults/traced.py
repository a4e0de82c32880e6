"""What a program did to the files of one folder, read from the trace of its system calls."""

from __future__ import annotations

import re
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

CALLS = (
    "openat,write,pwrite64,fsync,fdatasync,ftruncate,unlink,unlinkat,rename,renameat,renameat2,"
    "sync_file_range,lseek"
)
_CALL = re.compile(r"^(?:\d+ +)?(\w+)\((.*)\)\s+= (-?\d+)")
_FD = re.compile(r"^(-?\d+|AT_FDCWD)<([^>]*)>")
_TEXT = re.compile(r'"((?:\\x[0-9a-f]{2})*)"(\.\.\.)?')


@dataclass(frozen=True)
class Call:
    """One system call on a file of the folder, or one answer written to the terminal."""

    name: str
    file: str = ""
    start: int = 0
    content: bytes = b""
    other: str = ""
    """The new name of a rename, or the flags of an open."""


def trace(command: list[str], folder: Path, strace: str) -> list[Call]:
    """Run a Python program under strace and return what it did to the folder's files."""
    log = folder.parent / "trace.txt"
    subprocess.run(
        [
            *(strace, "-f", "-y", "-xx", "-s", "1000000", "-e", f"trace={CALLS}", "-e"),
            *("signal=none", "-o", str(log), sys.executable, *command),
        ],
        check=True,
        capture_output=True,
    )
    with log.open(encoding="ascii", errors="replace") as lines:
        calls = list(read_trace(lines, folder))
    log.unlink()
    return calls


def read_trace(lines: Iterator[str], folder: Path) -> Iterator[Call]:
    """Yield the calls of a trace that touch the folder, and the writes to descriptor 1."""
    inside = str(folder)
    offsets: dict[str, int] = {}
    for line in lines:
        found = _CALL.match(line)
        if found is None or int(found[3]) < 0:
            continue
        call = _call(found[1], found[2], inside, offsets)
        if call is not None:
            yield call


def _call(name: str, words: str, inside: str, offsets: dict[str, int]) -> Call | None:
    if name == "write" and words.startswith("1<"):
        return Call("answer", content=_texts(words)[0])
    texts = _texts(words)
    if name.startswith(("openat", "unlink", "rename")):
        paths = [text.decode() for text in texts]
        if not paths or Path(paths[0]).parent != Path(inside):
            return None
        names = [Path(path).name for path in paths]
        flags = words.rpartition('"')[2]
        offsets[names[0]] = 0
        return Call(name, names[0], other=names[1] if len(names) > 1 else flags)
    found = _FD.match(words)
    path = _unhexed(found[2]) if found else ""
    if path == inside:
        return Call("sync folder") if name in {"fsync", "fdatasync"} else None
    if Path(path).parent != Path(inside):
        return None
    return _on_file(name, Path(path).name, words, texts, offsets)


def _on_file(
    name: str, file: str, words: str, texts: list[bytes], offsets: dict[str, int]
) -> Call | None:
    last = words.rpartition(", ")[2]
    if name == "pwrite64":
        return Call("write", file, int(last), texts[0])
    if name == "write":
        start = offsets.get(file, 0)
        offsets[file] = start + len(texts[0])
        return Call("write", file, start, texts[0])
    if name == "ftruncate":
        return Call("cut off", file, int(last))
    if name == "lseek":
        offsets[file] = int(words.split(", ")[1])
        return None
    return Call("sync", file) if name in {"fsync", "fdatasync"} else None


def _texts(words: str) -> list[bytes]:
    found = _TEXT.findall(words)
    if any(cut for _, cut in found):
        raise ValueError("the trace cut a text short")
    return [bytes.fromhex(text.replace("\\x", "")) for text, _ in found]


def _unhexed(path: str) -> str:
    return bytes.fromhex(path.replace("\\x", "")).decode() if path.startswith("\\x") else path
