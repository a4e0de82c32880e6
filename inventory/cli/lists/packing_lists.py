"""Commands for packing lists: read one, show what was read, keep a supplier's layout."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from inventory.cli import context
from inventory.cli.exits import Exit
from inventory.cli.options import Json
from inventory.cli.show import HAND, PART, document, hand_word, note, say, table
from inventory.cli.table import Column
from inventory.core.errors import InventoryError

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from inventory.core.lists.layouts import SupplierLayout
    from inventory.core.lists.packing import PackingLine, PackingList, SourceRow
    from inventory.jobs.stores import Store

group = typer.Typer(no_args_is_help=True, help="Read a supplier's packing list, and look at it.")

Rows = Annotated[bool, typer.Option("--rows", help="Every row of the sheet with its class.")]


def add_to(app: typer.Typer) -> None:
    """Put the commands into the tree."""
    app.add_typer(group, name="packing-list")


ListFile = Annotated[Path, typer.Argument(metavar="FILE", help="The list; - for pasted text.")]
Answers = Annotated[Path | None, typer.Option(metavar="FILE", help='Lines "question" = "answer".')]
LayoutFile = Annotated[
    Path | None, typer.Option(metavar="FILE", help="What each heading means: packing-list layout.")
]
Page = Annotated[
    Path | None, typer.Option(metavar="FILE", help="Also write every row as one page.")
]
Replaces = Annotated[
    int, typer.Option(metavar="LIST", help="The list that this one is a new issue of.")
]
AsWell = Annotated[
    bool, typer.Option("--as-well", help="Not a new issue, although it looks like one.")
]
DryRun = Annotated[bool, typer.Option("--dry-run", help="Show only; store nothing.")]


@group.command("read")
def read(
    file: ListFile,
    answers: Answers = None,
    layout: LayoutFile = None,
    html: Page = None,
    replaces: Replaces = 0,
    *,
    as_well: AsWell = False,
    dry_run: DryRun = False,
    rows: Rows = False,
    json: Json = False,
) -> int:
    """Read a packing list, show what was understood, and take it in if nothing is unclear.

    Example: kitwright packing-list read LIST.xlsx --dry-run
    """
    from inventory.jobs.lists.reading_lists import answers_from, layout_from, store_if_any

    given = answers_from(answers) if answers else {}
    store = store_if_any(context.address())
    found = layout_from(layout) if layout else None
    content = sys.stdin.buffer.read() if str(file) == "-" else None
    packing_list = _read(file, content, given, found, store)
    if packing_list.questions and not json and sys.stdin.isatty():
        given = _ask(file, packing_list, given, found or _kept(packing_list, store))
        packing_list = _read(file, content, given, found, store)
    if html is not None:
        _write_page(packing_list, html)
    _show(packing_list, rows=rows, json=json)
    if dry_run:
        if replaces:
            _compare(packing_list, replaces)
        note("dry run: nothing was stored")
        return Exit.REFUSED if packing_list.problems else Exit.DONE
    _take_in(packing_list, given, replaces, as_well=as_well)
    return Exit.DONE


def _take_in(
    packing_list: PackingList, given: Mapping[str, str], replaces: int, *, as_well: bool
) -> None:
    from inventory.jobs.lists.reading_lists import remember
    from inventory.jobs.lists.sent_again import earlier_issue
    from inventory.jobs.lists.unpacking import take_in

    bench = context.open_bench()
    earlier = None if replaces or as_well else earlier_issue(bench, packing_list)
    if earlier is not None:
        raise InventoryError(
            f"it repeats most lines of list {earlier.id} ({earlier.source}), same order",
            remedy=f"Say --replaces {earlier.id} if it is a new issue of that list, or --as-well "
            "if all its pieces come besides.",
        )
    if replaces:
        _compare(packing_list, replaces)
    number = take_in(bench, packing_list, context.new_slip(), replaces or None)
    if remember(bench.store, packing_list, given):
        note(f"the answers are kept for the next list of {packing_list.supplier}")
    note(f"taken in as list {number}; next: kitwright crate open CRATE")


def _compare(packing_list: PackingList, replaces: int) -> None:
    from inventory.cli.lists.list_revision import show_revision
    from inventory.jobs.lists.sent_again import revision

    show_revision(revision(context.open_bench(), packing_list, replaces))


def _write_page(packing_list: PackingList, path: Path) -> None:
    from inventory.cli.papers import write_file
    from inventory.documents.list_preview import list_page

    write_file(path, list_page(packing_list).encode())
    note(f"written: {path}")


def _read(
    file: Path,
    content: bytes | None,
    answers: Mapping[str, str],
    layout: SupplierLayout | None,
    store: Store | None,
) -> PackingList:
    """Read a list; without a layout of its own, by the one kept for its supplier."""
    from inventory.jobs.lists.reading_lists import read_list, read_pasted

    def once(by: SupplierLayout | None) -> PackingList:
        if content is not None:
            return read_pasted(content, answers, by)
        return read_list(file, answers, by)

    packing_list = once(layout)
    kept = None if layout else _kept(packing_list, store)
    return once(kept) if kept else packing_list


def _kept(packing_list: PackingList, store: Store | None) -> SupplierLayout | None:
    from inventory.jobs.lists.reading_lists import layout_of

    if store is None or not packing_list.supplier:
        return None
    return layout_of(store, packing_list.supplier)


def _ask(
    file: Path,
    packing_list: PackingList,
    answers: Mapping[str, str],
    layout: SupplierLayout | None,
) -> dict[str, str]:
    """Ask each question on the terminal; an empty answer leaves it open."""
    from inventory.cli.lists.list_preview import asked
    from inventory.jobs.lists.reading_lists import read_list

    given = dict(answers)
    skipped: set[str] = set()
    while True:
        open_ = [one for one in packing_list.questions if one.id not in skipped]
        if not open_:
            return given
        asked(open_[0])
        answer = typer.prompt("answer (empty: leave it open)", default="", show_default=False)
        if answer.strip():
            given[open_[0].id] = answer
            packing_list = read_list(file, given, layout)
        else:
            skipped.add(open_[0].id)


@group.command("show")
def show(
    number: Annotated[int, typer.Argument(metavar="LIST", help="Number of the list.")] = 0,
    *,
    rows: Rows = False,
    json: Json = False,
) -> None:
    """Show the lists that were taken in; the lines or all rows of one.

    Example: kitwright packing-list show 1 --rows
    """
    from inventory.jobs.lists.unpacking import source_rows, taken_in

    bench = context.open_bench()
    if rows:
        _show_rows(source_rows(bench, number or 1), json=json)
        return
    lists = [(saved, lines) for saved, lines in taken_in(bench) if number in (0, saved.id)]
    if json:
        document("packing lists", [{"list": saved, "lines": lines} for saved, lines in lists])
    elif number:
        _show_lines([line for _, lines in lists for line in lines])
    else:
        columns = [
            Column("list", number=True), Column("source", words=True), Column("from", words=True),
            Column("lines", number=True),
        ]  # fmt: skip
        table(columns, [(kept.id, kept.source, kept.supplier, len(of_it)) for kept, of_it in lists])


def _show_lines(lines: Sequence[PackingLine]) -> None:
    columns = [
        Column("row", number=True), PART, HAND, Column("ord", number=True),
        Column("ship", number=True), Column("b/o", number=True), Column("crate"),
        Column("bag"), Column("description", words=True),
    ]  # fmt: skip
    rows = [
        (
            line.row, line.printed, hand_word(line.hand), line.ordered, line.shipped,
            line.back_ordered, line.crate, line.bag, line.description,
        )
        for line in lines
    ]  # fmt: skip
    table(columns, rows)


@group.command("layouts")
def layouts(*, json: Json = False) -> None:
    """List the suppliers whose layout is kept.

    Example: kitwright packing-list layouts
    """
    from inventory.jobs.lists.reading_lists import layouts as layouts_

    kept = layouts_(context.open_store())
    if json:
        document("layouts", kept)
        return
    columns = [Column("supplier", words=True), Column("headings"), Column("answers")]
    table(columns, [(one.name, len(one.columns), len(one.answers)) for one in kept])


@group.command("layout")
def layout(
    name: Annotated[str, typer.Argument(metavar="SUPPLIER", help="As the list prints it.")],
    keep: Annotated[
        Path | None, typer.Option(metavar="FILE", help="Keep this file as the layout.")
    ] = None,
) -> None:
    """Print a supplier's layout as TOML, fit to be edited; or keep an edited one.

    Example: kitwright packing-list layout "CURLEW SLIP KIT WORKS"
    """
    from inventory.core.lists.layouts import SupplierLayout, layout_text
    from inventory.jobs.lists.reading_lists import keep_layout, layout_from, layout_of

    store = context.open_store()
    if keep is not None:
        keep_layout(store, layout_from(keep))
        note(f"kept for {name}")
        return
    kept = layout_of(store, name)
    say(layout_text(kept or SupplierLayout(name=name)).rstrip())
    if kept is None:
        note("none is kept yet; write each heading with its meaning, then read with --layout FILE")


def _show(packing_list: PackingList, *, rows: bool, json: bool) -> None:
    if json and rows:
        from inventory.core.lists.packing_audit import audit_rows

        document("rows", audit_rows(packing_list))
    elif json:
        document("packing list", packing_list)
    elif rows:
        _show_rows(packing_list.rows, json=False)
    else:
        from inventory.cli.lists.list_preview import preview

        preview(packing_list)


def _show_rows(rows: Sequence[SourceRow], *, json: bool) -> None:
    if json:
        document("rows", rows)
        return
    columns = [
        Column("sheet"), Column("row", number=True), Column("class"),
        Column("why", words=True), Column("cells", words=True),
    ]  # fmt: skip
    table(
        columns,
        [
            (row.sheet, row.row, row.row_class, row.why, " | ".join(filter(None, row.cells)))
            for row in rows
        ],
    )
