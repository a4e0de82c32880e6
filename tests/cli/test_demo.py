"""The demo in places where it can't be laid down."""

from __future__ import annotations

import errno
import shutil
from typing import TYPE_CHECKING

from inventory.cli.exits import Exit

if TYPE_CHECKING:
    import pytest

    from tests.cli.conftest import Typist


def test_folder_that_is_there_is_refused(typed: Typist) -> None:
    told = typed("demo", "--into", str(typed.folder))
    assert (told.code, told.out) == (Exit.REFUSED, "")
    assert told.err.startswith("error: the folder is there already")


def test_folder_that_cant_be_made_is_refused(typed: Typist) -> None:
    (typed.folder / "file").write_text("")
    told = typed("demo", "--into", str(typed.folder / "file" / "demo"))
    assert (told.code, told.out) == (Exit.REFUSED, "")
    assert told.err.startswith("error: the kit can't be laid there: ")


def test_full_disk_is_refused(typed: Typist, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: object) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(shutil, "copyfile", full)
    told = typed("demo", "--into", str(typed.folder / "demo"))
    assert (told.code, told.out) == (Exit.REFUSED, "")
    assert "error: the kit can't be laid there: No space left on device" in told.err
