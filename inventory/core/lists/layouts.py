"""What was settled about one supplier's lists once, kept as readable TOML."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import field, replace

from inventory.core.errors import InventoryError
from inventory.core.frozen import frozen

MEANINGS = {
    "item": "the line's own number",
    "part": "part number",
    "description": "what it is",
    "hand": "left, right, both or either",
    "quantity": "the only quantity of the list",
    "ordered": "quantity ordered",
    "shipped": "quantity in this shipment",
    "back_ordered": "quantity to follow",
    "shipped_before": "quantity shipped earlier",
    "extended": "total quantity over all assemblies",
    "per_assembly": "quantity for one assembly",
    "assemblies": "number of assemblies",
    "per_package": "pieces in one package",
    "unit": "unit of the quantity",
    "length": "length of each piece of stock",
    "crate": "crate or box",
    "bag": "bag",
    "sub_kit": "sub-kit",
    "revision": "revision of the part",
    "remark": "remarks",
    "left": "quantity of left parts",
    "right": "quantity of right parts",
    "unhanded": "quantity of parts without a hand",
    "received": "to be written in by hand; not read",
    "old_part": "an older number of the part; not read",
    "other_part": "another firm's number of the part; not read",
    "drawing": "drawing or page; not read",
    "date": "a date; not read",
    "other": "anything else; not read",
}
"""What a column of a packing list can hold."""
_HEAD = (
    "# How the packing lists of one supplier are read. Below [columns] stands each",
    '# heading with its meaning, as "Still owed" = "back_ordered". It may mean:',
    *(f"#   {meaning:<14} {words}" for meaning, words in MEANINGS.items()),
    "# Below [answers] stand questions that every list of the supplier asks, with the",
    '# answer: "quantity of a pair" = "together".',
)
_OF_ONE_ROW = re.compile(r"\brow [0-9]+")
_REMEDY = "Export a layout and edit that, or take the line out"


@frozen(kw_only=True)
class SupplierLayout:
    """How one supplier's lists are to be read: what columns mean, and standing answers."""

    name: str
    columns: Mapping[str, str] = field(default_factory=dict)
    """Heading as printed, to one of `MEANINGS`."""
    answers: Mapping[str, str] = field(default_factory=dict)
    """Id of a question that concerns the whole list, to its answer."""


def layout_from_text(text: str) -> SupplierLayout:
    """Return the layout that a TOML text holds; raises `InventoryError` with the line at fault."""
    import tomllib  # noqa: PLC0415 - most lists are read without a layout

    try:
        table = tomllib.loads(text)
    except tomllib.TOMLDecodeError as cause:
        raise InventoryError(f"the layout isn't TOML: {cause}", remedy=_REMEDY) from cause
    unknown = sorted(set(table) - {"name", "columns", "answers"})
    if unknown:
        raise InventoryError(f"a layout has no {unknown[0]!r}", remedy=_REMEDY)
    name, columns, answers = table.get("name"), table.get("columns"), table.get("answers")
    if not isinstance(name, str) or not name.strip():
        raise InventoryError("the layout has no name", remedy='Give it one: name = "…"')
    layout = SupplierLayout(
        name=name, columns=_texts(columns, "columns"), answers=_texts(answers, "answers")
    )
    for heading, meaning in layout.columns.items():
        if meaning not in MEANINGS:
            known = ", ".join(MEANINGS)
            raise InventoryError(
                f"{heading!r} can't mean {meaning!r}", remedy=f"Use one of {known}"
            )
    return layout


def _texts(table: object, name: str) -> Mapping[str, str]:
    if table is None:
        return {}
    if not isinstance(table, Mapping):
        raise InventoryError(f"{name!r} must be a table of texts", remedy=_REMEDY)
    for key, value in table.items():
        if not isinstance(value, str):
            raise InventoryError(f"{key!r} in {name!r} must be a text in quotes", remedy=_REMEDY)
    return dict(table)


def layout_text(layout: SupplierLayout) -> str:
    """Return the layout as TOML that reads back the same and is fit to be edited."""
    lines = [
        *_HEAD,
        f"name = {_quoted(layout.name)}",
        "",
        "[columns]",
        *(f"{_quoted(key)} = {_quoted(value)}" for key, value in layout.columns.items()),
        "",
        "[answers]",
        *(f"{_quoted(key)} = {_quoted(value)}" for key, value in layout.answers.items()),
    ]
    return "\n".join(lines) + "\n"


def _quoted(text: str) -> str:
    signs = {'"': '\\"', "\\": "\\\\"}
    return '"' + "".join(signs.get(sign) or _plain(sign) for sign in text) + '"'


def _plain(sign: str) -> str:
    return sign if sign.isprintable() else f"\\U{ord(sign):08X}"


def learned(layout: SupplierLayout, answers: Mapping[str, str]) -> SupplierLayout:
    """Return the layout with the answers that hold for the whole list; a row's own stay out."""
    lasting = {key: value for key, value in answers.items() if not _OF_ONE_ROW.search(key)}
    return replace(layout, answers={**layout.answers, **lasting})
