"""An export that was changed by hand, cut off or spoilt rebuilds nothing."""

from __future__ import annotations

import json
from hashlib import sha256
from typing import TYPE_CHECKING

import pytest

from inventory.core.errors import InventoryError, StoreError
from inventory.jobs.record.exporting import RECORD
from inventory.jobs.record.rebuilding import rebuild
from inventory.store.opening.database import SCHEMA

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path


def changed(exported: Path, how: Callable[[list[str]], list[str]]) -> Path:
    path = exported / RECORD
    lines = how(path.read_text(encoding="utf-8").splitlines(keepends=True))
    path.write_text("".join(lines), encoding="utf-8")
    return exported


def swap(old: str, new: str) -> Callable[[list[str]], list[str]]:
    def swapped(lines: list[str]) -> list[str]:
        text = "".join(lines)
        assert old in text
        return text.replace(old, new, 1).splitlines(keepends=True)

    return swapped


@pytest.mark.parametrize(
    ("how", "words"),
    [
        (lambda _: [], "can't be read as JSON"),
        (lambda lines: lines[1:], "isn't an export"),
        (lambda lines: lines[:-1], "no end: the file is cut off"),
        (lambda lines: lines[:1], "no end: the file is cut off"),
        (lambda lines: [*lines[:-1], lines[-1][:20]], "can't be read as JSON"),
        (lambda lines: [*lines[:5], "[]\n", *lines[5:]], "no JSON object"),
        (lambda lines: [*lines[:5], "\n", *lines[5:]], "can't be read as JSON"),
        (lambda lines: [line for line in lines if "store id" not in line], "aren't those"),
        (lambda lines: [*lines[:2], lines[1], *lines[2:]], "stands there twice"),
        (swap('"quantity":3', '"quantity":2'), "more was asked|aren't those|doesn't fit"),
        (swap('"quantity":3', '"quantity":-3'), "the row of movement holds a value that can't be"),
        (swap('"quantity":3', '"quantity":3.0'), "quantity holds '3.0'"),
        (swap('"quantity":3', '"quantity":true'), "quantity holds 'True'"),
        (swap('"table":"slip"', '"table":"sqlite_master"'), "no table 'sqlite_master'"),
        (swap('"table":"slip"', '"table":"balance"'), "no table 'balance'"),
        (
            swap('"table":"slip","kit":1', '"table":"slip","kit":9'),
            "belongs to a row that isn't in the export before it",
        ),
        (swap('"act":"issue",', ""), "columns of slip aren't those"),
        (swap('"person":"Ada"', '"person":"Bea"'), "aren't those that were exported"),
        (swap('"rows":{', '"rows":{"kit":7,"x":'), "can't be read as JSON"),
        (swap('"rows":{', '"row":{'), "no foot"),
    ],
)  # fmt: skip
def test_an_export_that_was_changed_rebuilds_nothing(
    exported: Path, tmp_path: Path, how: Callable[[list[str]], list[str]], words: str
) -> None:
    with pytest.raises(InventoryError, match=words) as refused:
        rebuild(changed(exported, how), str(tmp_path / "new.kitwright"))
    assert "export" in refused.value.where
    assert not (tmp_path / "new.kitwright").exists()


def test_changed_rows_with_a_new_foot_are_caught_by_the_chain(
    exported: Path, tmp_path: Path
) -> None:
    def forge(lines: list[str]) -> list[str]:
        text = "".join(lines[1:-1]).replace('"act":"take-back"', '"act":"scrap"', 1)
        foot = json.loads(lines[-1]) | {"sha256": sha256(text.encode()).hexdigest()}
        return [lines[0], text, json.dumps(foot)]

    with pytest.raises(InventoryError, match="doesn't verify: movement"):
        rebuild(changed(exported, forge), str(tmp_path / "new.kitwright"))


def test_an_export_that_is_no_text_or_not_there_is_refused(exported: Path, tmp_path: Path) -> None:
    (exported / RECORD).write_bytes(b'{"kitwright export":1,"schema":5}\n\xff\n')
    with pytest.raises(InventoryError, match="no UTF-8"):
        rebuild(exported, str(tmp_path / "new.kitwright"))
    with pytest.raises(StoreError, match="the export can't be read"):
        rebuild(tmp_path / "nowhere", str(tmp_path / "new.kitwright"))


def test_an_export_of_a_newer_program_is_refused(exported: Path, tmp_path: Path) -> None:
    newer = swap(f'"schema":{SCHEMA}', f'"schema":{SCHEMA + 1}')
    with pytest.raises(InventoryError, match="of a newer Kitwright"):
        rebuild(changed(exported, newer), str(tmp_path / "new.kitwright"))
