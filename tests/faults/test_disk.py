"""The disk on which power cuts are tried: what may be left, worked out by hand."""

from __future__ import annotations

import random
from pathlib import Path

from tests.faults.disk import Disk, File, applied, torn
from tests.faults.traced import read_trace


def outcomes(disk: Disk) -> set[tuple[tuple[str, bytes], ...]]:
    return {
        tuple(sorted(disk.after_cut(random.Random(seed)).items()))  # noqa: S311
        for seed in range(300)
    }


def test_what_was_synced_is_there() -> None:
    disk = Disk.holding({"a": b"old"})
    disk.write("a", 0, b"new")
    disk.sync("a")
    assert outcomes(disk) == {(("a", b"new"),)}


def test_what_was_not_synced_may_be_there_or_not() -> None:
    disk = Disk.holding({"a": b"old"})
    disk.write("a", 0, b"new")
    assert outcomes(disk) == {(("a", b"old"),), (("a", b"new"),)}


def test_a_name_that_was_taken_away_may_come_back_until_the_folder_is_synced() -> None:
    disk = Disk.holding({"a": b"1", "journal": b"2"})
    disk.unlink("journal")
    assert outcomes(disk) == {(("a", b"1"),), (("a", b"1"), ("journal", b"2"))}
    disk.sync_folder()
    assert outcomes(disk) == {(("a", b"1"),)}


def test_syncing_a_new_file_makes_its_name_durable() -> None:
    disk = Disk.holding({})
    disk.open("a", create=True, cut=False)
    disk.write("a", 2, b"x")
    assert () in outcomes(disk)
    disk.sync("a")
    assert outcomes(disk) == {(("a", b"\0\0x"),)}


def test_a_file_made_again_is_another_file() -> None:
    disk = Disk.holding({"journal": b"first"})
    disk.unlink("journal")
    disk.open("journal", create=True, cut=False)
    disk.write("journal", 0, b"second")
    assert (("journal", b"first"),) in outcomes(disk)
    disk.sync("journal")
    assert outcomes(disk) == {(("journal", b"second"),)}


def test_a_rename_is_one_step_for_the_new_name() -> None:
    disk = Disk.holding({"a": b"1"})
    disk.open("part", create=True, cut=True)
    disk.write("part", 0, b"2")
    disk.sync("part")
    disk.rename("part", "a")
    disk.sync_folder()
    assert outcomes(disk) == {(("a", b"2"),)}


def test_a_write_is_torn_at_sectors_only() -> None:
    content = b"a" * 100 + b"b" * 512 + b"c" * 30
    pieces = {
        piece
        for seed in range(200)
        for piece in torn((412, content), random.Random(seed))  # noqa: S311
    }
    assert pieces == {(412, b"a" * 100), (512, b"b" * 512), (1024, b"c" * 30)}


def test_cutting_off_may_lengthen_too() -> None:
    assert applied(b"abcdef", [(2, None), (4, None), (4, b"x")]) == b"ab\0\0x"
    file = File(b"abc", [(1, None)])
    assert {file.after_cut(random.Random(seed)) for seed in range(50)} == {b"abc", b"a"}  # noqa: S311


def test_a_trace_is_read_as_what_was_done_to_the_folder() -> None:
    folder = Path("/f")
    hexed = "".join(f"\\x{byte:02x}" for byte in b"/f/a")
    lines = [
        f'7 openat(AT_FDCWD<\\x2f>, "{hexed}", O_RDWR|O_CREAT, 0644) = 3<{hexed}>',
        f'7 pwrite64(3<{hexed}>, "\\x41\\x42", 2, 512) = 2',
        f"7 fdatasync(3<{hexed}>) = 0",
        "7 fsync(4<\\x2f\\x66>) = 0",
        f'7 unlink("{hexed}") = 0',
        f'7 unlink("{hexed}") = -1 ENOENT (No such file or directory)',
        '7 write(1<\\x70>, "\\x4f\\x4b", 2) = 2',
        '7 openat(AT_FDCWD<\\x2f>, "\\x2f\\x78", O_RDONLY) = 5<\\x2f\\x78>',
    ]
    calls = [
        (call.name, call.file, call.start, call.content) for call in read_trace(iter(lines), folder)
    ]
    assert calls == [
        ("openat", "a", 0, b""),
        ("write", "a", 512, b"AB"),
        ("sync", "a", 0, b""),
        ("sync folder", "", 0, b""),
        ("unlink", "a", 0, b""),
        ("answer", "", 0, b"OK"),
    ]
