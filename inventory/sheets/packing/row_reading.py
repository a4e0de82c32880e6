"""Rows of one sheet to classes: every row ends in exactly one, and says why."""

from __future__ import annotations

from operator import attrgetter
from typing import TYPE_CHECKING

from inventory.core.lists.packing import Reading, RowClass, SourceRow
from inventory.sheets.packing.asking import Doubt
from inventory.sheets.packing.boxes import Box, OpenBoxes
from inventory.sheets.packing.carried_down import carry_down
from inventory.sheets.packing.manners import LAST_COLUMN, Manners, manners_of
from inventory.sheets.packing.merged_cells import merged_down, wide_rows
from inventory.sheets.packing.ordinary_rows import OrdinaryRows
from inventory.sheets.packing.row_classes import (
    REPEATED_TITLE,
    Classed,
    classify,
    looks_like_part,
    may_open,
)
from inventory.sheets.packing.row_results import PartRow, SheetRows, TotalRow
from inventory.sheets.packing.row_views import view_of
from inventory.sheets.packing.row_words import Heading, keyword_heading
from inventory.sheets.packing.sheet_titles import (
    box_names,
    index_classes,
    title_classes,
    title_prints,
)
from inventory.sheets.packing.surroundings import Surroundings
from inventory.sheets.packing.title_block import title_facts
from inventory.sheets.packing.to_follow import KIND, speaks_of_later

if TYPE_CHECKING:
    from collections.abc import Container, Mapping, Sequence

    from inventory.sheets.formats.book import Row, Sheet
    from inventory.sheets.packing.asking import Asking
    from inventory.sheets.packing.ordinary_rows import Cells
    from inventory.sheets.packing.packing_tables import Section, Table
    from inventory.sheets.packing.row_views import RowView

_PART = RowClass.PART
_ORDINARY = Classed(_PART, "a part number and a quantity")
_NOTHING_MERGED: Mapping[int, str] = {}


class SheetClasses:
    """Goes down one sheet and gives each row its class."""

    def __init__(
        self,
        sheet: Sheet,
        sections: Sequence[Section],
        asking: Asking,
        titles: Container[str] = frozenset(),
    ) -> None:
        """Read the sheet by the sections its headers make; `titles` stand on other sheets too."""
        self._titles = titles
        self._sheet = sheet
        self._sections = sections
        self._asking = asking
        self._first = sections[0].head.start if sections else len(sheet.rows)
        title = [row for row in sheet.rows[: self._first] if not row.blank]
        self._found = SheetRows(facts=title_facts(title))
        self._prints = title_prints(title)
        self._boxes = OpenBoxes(box_names(sheet.name, self._found.facts))
        self._before = RowClass.HEAD
        self._gap = True
        self._above = self._waiting = ""
        self._manners = Manners(bold=False, filled=False, numbered=False)
        self._merged_down = merged_down(sheet)
        self._wide = wide_rows(sheet)

    def read(self) -> SheetRows:
        """Return every row of the sheet, classed."""
        self._read_title()
        for section in self._sections:
            for row in self._sheet.rows[section.head.start : section.head.stop]:
                self._keep(row, Classed(RowClass.HEAD, "names the columns"))
            self._gap = True
            for table, span in zip(section.tables, _spans(section.tables), strict=True):
                self._open_own_title(section, span)
                self._read_table(section, table, span)
        self._found.rows.sort(key=attrgetter("row", "table"))
        self._found.carried = carry_down(self._found.parts)
        return self._found

    def _keep(self, row: Row, classed: Classed, table: int = 0) -> None:
        self._found.rows.append(
            SourceRow(
                self._sheet.name, row.number, classed.row_class, classed.why, row.texts, table
            )
        )

    def _read_title(self) -> None:
        rows = self._sheet.rows[: self._first]
        classes = title_classes(rows) if self._sections else index_classes(rows, self._titles)
        for row, classed in zip(rows, classes, strict=True):
            self._keep(row, classed)
            if classed.heading is not None:
                self._boxes.open(Box(classed.heading.kind, classed.heading.name, 0, nested=False))

    def _open_own_title(self, section: Section, span: range) -> None:
        """Open the crate or bag that stands above one of several tables side by side."""
        above = self._sheet.rows[section.head.start - 1 : section.head.start]
        if len(section.tables) < 2 or not above:  # noqa: PLR2004 - one has the whole width
            return
        texts = [text for text in above[0].texts[span.start : span.stop] if text]
        heading = keyword_heading(texts[0]) if len(texts) == 1 else None
        if heading is not None:
            self._boxes.open(Box(heading.kind, heading.name, 0, nested=False))

    def _read_table(self, section: Section, table: Table, span: range) -> None:
        rows = self._sheet.rows[section.body.start : section.body.stop]
        ordinary = OrdinaryRows(table) if len(section.tables) == 1 else None
        self._manners = manners_of(rows, table)
        for place, row in enumerate(rows):
            cells = ordinary.cells(row.texts) if ordinary is not None else None
            if cells is not None and self._take_ordinary(row, table, span, cells):
                continue
            if row.blank or not any(row.texts[span.start : span.stop]):
                if row.blank and table.number == 0:
                    self._keep(row, Classed(RowClass.BLANK, "nothing stands in it"))
                self._gap = True
                continue
            view = view_of(row, table, span, self._merged_down.get(row.number, {}))
            classed = self._class_of(view, rows, place, section)
            self._take(view, span, classed, self._following(table, rows, place))

    def _take_ordinary(self, row: Row, table: Table, span: range, cells: Cells) -> bool:
        """Take a row that is a part beyond doubt; False where it needs a closer look after all."""
        if self._boxes.set_in or row.number in self._merged_down or self._waiting:
            return False
        number, description, crate, bag, sub_kit = cells
        around, name = self._boxes.around, self._sheet.name
        kind, why = _ORDINARY.row_class, _ORDINARY.why
        self._found.rows.append(SourceRow(name, row.number, kind, why, row.texts))
        self._found.parts.append(
            PartRow(
                name, row, table, span, _NOTHING_MERGED, number, description,
                crate or around[0], bag or around[1], sub_kit or around[2], around[3], self._above,
            )
        )  # fmt: skip
        self._above = number
        self._before, self._gap = _PART, False
        return True

    def _class_of(
        self, view: RowView, rows: Sequence[Row], place: int, section: Section
    ) -> Classed:
        following = self._following(view.table, rows, place)
        manners = self._manners
        around = Surroundings(
            before=self._before,
            gap=self._gap,
            following=following,
            title_block=self._prints,
            bold_parts=manners.bold,
            filled_parts=manners.filled,
            merged=view.row.number in self._wide,
            numbered=manners.numbered,
            above_header=following is None and section is not self._sections[-1],
        )
        classed = classify(view, around)
        if classed.row_class is RowClass.UNKNOWN:
            return self._asked_class(view, classed)
        opened = may_open(view) if classed.row_class is RowClass.PART else None
        if opened is not None and _part_follows(following):
            return self._asked_title(view, classed, opened)
        return classed

    def _following(self, table: Table, rows: Sequence[Row], place: int) -> RowView | None:
        for row in rows[place + 1 :]:
            if not row.blank:
                return view_of(row, table, range(LAST_COLUMN), {})
        return None

    def _asked_class(self, view: RowView, classed: Classed) -> Classed:
        where = f"{self._sheet.name} row {view.row.number}"
        readings = (
            Reading("note", "the row is kept and counts for nothing"),
            Reading("heading", "the row is the title of what follows"),
        )
        answer = self._asking.ask(
            Doubt(f"{where} class", "it isn't clear what this row is", readings),
            self._sheet.name,
            view.row.number,
        )
        if answer == "heading":
            return Classed(RowClass.HEADING, "you said so", Heading("sub_kit", view.words))
        return Classed(RowClass.NOTE, "you said so") if answer == "note" else classed

    def _asked_title(self, view: RowView, classed: Classed, opened: Heading) -> Classed:
        spoken = opened.kind.replace("_", "-")
        readings = (
            Reading("title", f"the {spoken}'s own row counts for nothing; what follows lies in it"),
            Reading("part", f"the {spoken} itself is a part that is counted"),
        )
        answer = self._asking.ask(
            Doubt(
                f"{self._sheet.name} row {view.row.number} {spoken}",
                f"{view.part} can be a {spoken}'s title or a part",
                readings,
            ),
            self._sheet.name,
            view.row.number,
        )
        if answer != "title":
            return classed
        named = any(map(str.isdigit, opened.name))
        opened = opened if named else Heading(opened.kind, view.part)
        return Classed(RowClass.HEADING, "you said so", opened)

    def _take(
        self, view: RowView, span: range, classed: Classed, following: RowView | None
    ) -> None:
        self._keep(view.row, classed, view.table.number)
        if classed.row_class is RowClass.HEADING and classed.heading is not None:
            self._open(view, classed.heading, following)
        elif classed.row_class is RowClass.HEAD and classed.why == REPEATED_TITLE:
            self._turn_page(view.row)
        elif classed.row_class is RowClass.PART:
            self._take_part(view, span)
        elif classed.row_class is RowClass.TOTAL:
            self._waiting = ""
            self._found.totals.append(TotalRow(self._sheet.name, view, len(self._found.parts)))
        elif classed.row_class is RowClass.NOTE:
            self._found.notes.append((view.row.number, view.words))
            if classed.why == "carries on the row above" and self._found.parts:
                self._found.parts[-1].lines_below += (view.words,)
        self._before, self._gap = classed.row_class, False

    def _turn_page(self, row: Row) -> None:
        """Go on where the head of a new page says that its parts lie."""
        for kind, name in box_names("", title_facts([row])).items():
            if name != self._boxes.name(kind):
                self._boxes.open(Box(kind, name, 0, nested=False))

    def _open(self, view: RowView, heading: Heading, following: RowView | None) -> None:
        self._waiting = view.words if speaks_of_later(view.words) else ""
        if heading.kind == KIND:
            return
        level = view.level
        nested = following is not None and following.level > level
        numbers = [q.number for q in view.amounts().values() if q.number > 1]
        pieces = int(numbers[0]) if numbers and numbers[0].denominator == 1 else 1
        self._boxes.open(Box(heading.kind, heading.name, level, nested, pieces))

    def _take_part(self, view: RowView, span: range) -> None:
        if self._boxes.set_in:
            self._boxes.row(view.level)
        crate, bag, sub_kit, several = self._boxes.around
        number = view.part
        self._found.parts.append(
            PartRow(
                self._sheet.name,
                view.row,
                view.table,
                span,
                view.merged,
                number,
                view.description,
                view.text("crate") or crate,
                view.text("bag") or bag,
                view.text("sub_kit") or sub_kit,
                several,
                self._above,
                self._waiting,
            )
        )
        if number and not view.ditto:
            self._above = number


def _spans(tables: Sequence[Table]) -> list[range]:
    starts = [0, *(table.span[0] for table in tables[1:])]
    return [range(a, b) for a, b in zip(starts, [*starts[1:], LAST_COLUMN], strict=True)]


def _part_follows(following: RowView | None) -> bool:
    return following is not None and looks_like_part(following)
