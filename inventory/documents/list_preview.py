"""A packing list as one page to look over: every row of the sheet by its class, doubts first."""

from __future__ import annotations

from collections import Counter, defaultdict
from html import escape
from typing import TYPE_CHECKING

from inventory.core.counted import counted
from inventory.core.lists.packing import CountRule, RowClass
from inventory.core.lists.packing_audit import audit_rows
from inventory.core.plain import plain

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from inventory.core.lists.packing import PackingLine, PackingList, Question

_LOOKS = {
    RowClass.HEAD: ("#e3e7ee", "column names and title block"),
    RowClass.HEADING: ("#cfe0f5", "title of a crate, bag or sub-kit"),
    RowClass.PART: ("#ffffff", "a number and a quantity"),
    RowClass.NOTE: ("#f3efdc", "free text"),
    RowClass.TOTAL: ("#e0ead9", "total, used as a check"),
    RowClass.BLANK: ("#fafafa", "nothing in it"),
    RowClass.UNKNOWN: ("#f6cfcf", "not understood"),
}
"""Colour of each class and its words; a class is never told by colour alone."""
_ASKED = "#ffd9a8"
_STYLE = f"""
body {{ font: 15px/1.4 system-ui, sans-serif; margin: 1.5em; color: #111; }}
h1 {{ font-size: 1.4em; }} h2 {{ font-size: 1.1em; margin-top: 1.6em; }}
table {{ border-collapse: collapse; }} td, th {{ border: 1px solid #bbb; padding: 2px 7px;
  text-align: left; vertical-align: top; }}
td.n, th.n {{ text-align: right; font-variant-numeric: tabular-nums; }}
td.c {{ white-space: nowrap; font-weight: 600; }}
.part {{ white-space: nowrap; font-weight: 600; }}
.legend {{ line-height: 2.1; }}
.legend span {{ border: 1px solid #bbb; padding: 2px 8px; margin-right: 6px; white-space: nowrap; }}
{"".join(f"tr.row-{kind} td {{ background: {colour}; }} " for kind, (colour, _) in _LOOKS.items())}
tr.asked td {{ background: {_ASKED}; }} tr.asked td.c {{ border-left: 6px solid #b25b00; }}
thead {{ display: table-header-group; }}
@media print {{ body {{ margin: 0; font-size: 9pt; }} h2 {{ break-after: avoid; }} }}
"""


def list_page(packing_list: PackingList) -> str:
    """Return the page as HTML that needs nothing from anywhere else."""
    title = f"Packing list {_text(packing_list.source)}"
    parts = (
        f"<h1>{title}</h1>",
        _facts(packing_list),
        _problems(packing_list),
        _questions(packing_list.questions),
        _classes(packing_list),
        _sub_kits(packing_list.lines),
        _columns(packing_list),
        _sheets(packing_list),
    )
    return (
        '<!doctype html>\n<html lang="en"><head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width, initial-scale=1">'
        f"<title>{title}</title><style>{_STYLE}</style></head>\n<body>\n"
        + "\n".join(filter(None, parts))
        + "\n</body></html>\n"
    )


def _text(text: object) -> str:
    lines = (plain(line) for line in str(text).split("\n"))
    return "<br>".join(escape(line) for line in lines)


def _facts(packing_list: PackingList) -> str:
    named = (
        ("Supplier", packing_list.supplier),
        ("Order", packing_list.order),
        ("Revision", packing_list.revision),
        ("File", packing_list.form),
        ("Read by the layout", packing_list.layout),
        ("SHA-256", packing_list.sha256[:16]),
    )
    facts = " · ".join(f"{name}: <b>{_text(value)}</b>" for name, value in named if value)
    remarks = "".join(f"<li>{_text(remark)}</li>" for remark in packing_list.remarks)
    return f"<p>{facts}</p>" + (f"<ul>{remarks}</ul>" if remarks else "")


def _problems(packing_list: PackingList) -> str:
    rows = [(p.where, p.what, p.remedy) for p in packing_list.problems]
    return _table("Problems", ("where", "what", "what to do"), rows) if rows else ""


def _questions(questions: Sequence[Question]) -> str:
    if not questions:
        return "<p><b>Nothing is asked.</b></p>"
    rows = [
        (
            question.id,
            question.what,
            "\n".join(f"{each.answer}: {each.effect}" for each in question.readings),
            max(len(question.rows), 1) if question.row else "the list",
        )
        for question in questions
    ]
    heads = ("question", "what is asked", "answers and their effect", "rows")
    return _table(f"{len(questions)} questions", heads, rows)


def _table(title: str, heads: Sequence[str], rows: Iterable[Sequence[object]]) -> str:
    head = "".join(f"<th>{_text(each)}</th>" for each in heads)
    body = "".join(f"<tr>{''.join(map(_cell, row))}</tr>" for row in rows)
    return (
        f"<h2>{_text(title)}</h2><table><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>"
    )


def _cell(value: object) -> str:
    kind = ' class="n"' if isinstance(value, int | float) else ""
    return f"<td{kind}>{_text('' if value is None else value)}</td>"


def _classes(packing_list: PackingList) -> str:
    counts = Counter(row.row_class for row in packing_list.rows)
    shown = "".join(
        f'<span style="background:{colour}">{counts[kind]} {kind}: {words}</span> '
        for kind, (colour, words) in _LOOKS.items()
        if counts[kind]
    )
    held = len(packing_list.held)
    waiting = counted(held, "part")
    asked = f'<span style="background:{_ASKED}">waiting for an answer: {waiting}</span>'
    return (
        f"<h2>{counted(len(packing_list.rows), 'row')}, "
        f"{counted(len(packing_list.lines), 'line')}</h2>"
        f'<p class="legend">{shown}{asked if held else ""}</p>'
    )


def _sub_kits(lines: Sequence[PackingLine]) -> str:
    kits: defaultdict[str, list[PackingLine]] = defaultdict(list)
    for line in lines:
        kits[line.sub_kit].append(line)
    rows = [
        (
            kit or "(no sub-kit)",
            len(of_kit),
            sum(line.shipped for line in of_kit if line.measure == "pieces"),
            sum(line.back_ordered for line in of_kit if line.measure == "pieces"),
            ", ".join(dict.fromkeys(line.crate for line in of_kit if line.crate)),
        )
        for kit, of_kit in kits.items()
    ]
    heads = ("sub-kit", "lines", "pieces in this shipment", "pieces to follow", "crates")
    return _table("Sub-kits", heads, rows) if rows else ""


def _columns(packing_list: PackingList) -> str:
    rows = [
        (each.sheet, each.column, each.heading, each.meaning.replace("_", " ") or "(not used)")
        for each in packing_list.columns
    ]
    shown = _table("Columns", ("sheet", "column", "heading", "taken as"), rows)
    return f"<details><summary>What the columns were taken for</summary>{shown}</details>"


def _sheets(packing_list: PackingList) -> str:
    sheets: defaultdict[str, list[Mapping[str, object]]] = defaultdict(list)
    for entry in audit_rows(packing_list):
        sheets[str(entry["sheet"])].append(entry)
    return "".join(_sheet(name, entries) for name, entries in sheets.items())


def _sheet(name: str, entries: Sequence[Mapping[str, object]]) -> str:
    width = max((len(_cells(entry)) for entry in entries), default=1)
    head = (
        f'<th class="n">row</th><th>class</th><th>taken as</th><th colspan="{width}">the sheet</th>'
    )
    rows = "".join(_row(entry, width) for entry in entries)
    return (
        f"<h2>Sheet {_text(name)}</h2><table><thead><tr>{head}</tr></thead>"
        f"<tbody>{rows}</tbody></table>"
    )


def _cells(entry: Mapping[str, object]) -> list[object]:
    cells = entry["cells"]
    return cells if isinstance(cells, list) else []


def _row(entry: Mapping[str, object], width: int) -> str:
    cells = _cells(entry)
    rest = width - len(cells) + 1
    shown = [f"<td>{_text(cell)}</td>" for cell in cells[:-1]]
    last = _text(cells[-1]) if cells else ""
    shown.append(f'<td colspan="{rest if cells else width}">{last}</td>')
    questions = entry["questions"]
    asked = isinstance(questions, list) and bool(questions)
    return (
        f'<tr class="row-{entry["class"]}{" asked" if asked else ""}">'
        f'<td class="n">{entry["row"]}</td>'
        f'<td class="c">{"ASKED: " if asked else ""}{entry["class"]}</td>'
        f"<td>{_taken_as(entry)}</td>" + "".join(shown) + "</tr>\n"
    )


def _taken_as(entry: Mapping[str, object]) -> str:
    """Return in words what a row was taken for."""
    if "part" not in entry:
        return _text(entry["why"])
    part = f'<span class="part">{_text(entry["part"])}</span>'
    words = [part, _amounts(entry), _hand(entry)]
    where = (("crate", entry["crate"]), ("bag", entry["bag"]))
    words += [f"{name} {_text(value)}" for name, value in where if value]
    return ", ".join(filter(None, words))


def _amounts(entry: Mapping[str, object]) -> str:
    rule = str(entry["count_rule"])
    if rule != CountRule.COUNTED:
        return rule.replace("-", " ")
    ordered, shipped, waiting = (
        "?" if entry[name] is None else entry[name]
        for name in ("ordered", "shipped", "back_ordered")
    )
    same = ordered == shipped and waiting == 0
    amounts = f"{shipped}" if same else f"{shipped} of {ordered}, {waiting} to follow"
    return f"{_text(amounts)} {_text(entry['unit'])}"


def _hand(entry: Mapping[str, object]) -> str:
    hand = str(entry["hand"])
    if hand == "pair" and entry["left"] is not None:
        return f"{entry['left']} LEFT and {entry['right']} RIGHT"
    return {"none": "", "unknown": "hand asked", "either": "either side"}.get(hand, hand.upper())
