"""What a list sent again changes, as a table; conflicts with counts first."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.cli.paragraphs import hanging
from inventory.cli.show import PART, hand_word, say, table
from inventory.cli.table import Column

if TYPE_CHECKING:
    from inventory.core.lists.list_revision import ChangedLine
    from inventory.core.lists.packing import PackingLine
    from inventory.jobs.lists.sent_again import Revision


def show_revision(revision: Revision) -> None:
    """Show each line that is added, removed, changed or only renumbered."""
    for conflict in revision.conflicts:
        hand = hand_word(conflict.line.hand)
        which = f"{conflict.line.printed} {hand}".rstrip()
        for line in hanging(f"CONFLICT {which}: {conflict.why}; the count stands", 4):
            say(line)
    changes = revision.changes
    say(
        f"against list {revision.replaces}: {len(changes.added)} added, {len(changes.removed)} "
        f"removed, {len(changes.changed)} changed, {len(changes.renumbered)} renumbered, "
        f"{changes.unchanged} the same"
    )
    rows = [
        *(("added", *_line(line), f"{line.shipped} shipped") for line in changes.added),
        *(("removed", *_line(line), f"{line.shipped} shipped") for line in changes.removed),
        *(("changed", *_line(each.after), _fields(each)) for each in changes.changed),
    ]
    if rows:
        columns = [
            Column("what"), Column("row", number=True), PART, Column("hand"),
            Column("difference", words=True),
        ]  # fmt: skip
        table(columns, rows)


def _line(line: PackingLine) -> tuple[object, ...]:
    return line.row, line.printed, hand_word(line.hand)


def _fields(each: ChangedLine) -> str:
    return "; ".join(
        f"{name.replace('_', ' ')} {getattr(each.before, name)} -> {getattr(each.after, name)}"
        for name in each.fields
    )
