"""The note beside a backup."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from inventory.core.errors import InventoryError
from inventory.core.record.backups import Note, backup_name, note_text, read_note

NOTE = Note(
    file="kits.kitwright",
    sha256="ab",
    state="cd",
    schema=5,
    program="0.1.0",
    store="46085EB4",
    made_at=datetime(2026, 11, 25, 8, 33, 45, tzinfo=UTC),
    rows={"kit": 1},
    seals={"T2": "0:00"},
    photos=("a.jpg",),
)


def test_a_note_comes_back_as_it_was_written() -> None:
    assert read_note(note_text(NOTE), "x") == NOTE


def test_a_backup_is_named_by_the_second_it_was_made() -> None:
    assert backup_name("kits", NOTE.made_at) == "kits-20261125T083345Z.kitwright"


@pytest.mark.parametrize(
    "text",
    [
        "",
        "[]",
        "{}",
        '{"kind": "other"}',
        note_text(NOTE).replace('"state"', '"estate"'),
        note_text(NOTE).replace("2026-11-25", "yesterday"),
        note_text(NOTE).replace("kitwright backup", "something else"),
    ],
)
def test_what_is_no_note_is_refused(text: str) -> None:
    with pytest.raises(
        InventoryError, match=r"^the note beside the backup can't be read$"
    ) as refused:
        read_note(text, "kits.json")
    assert refused.value.where == "kits.json"
    assert refused.value.remedy == "Take another backup."


def test_a_note_is_text_that_a_person_can_read() -> None:
    lines = note_text(NOTE).splitlines()
    assert lines[:4] == ["{", ' "kind": "kitwright backup",', ' "file": "kits.kitwright",',
                         ' "sha256": "ab",']  # fmt: skip
    assert note_text(NOTE).endswith("}\n")
