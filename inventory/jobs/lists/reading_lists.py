"""Reading a packing list with what was settled about its supplier before."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError, NoStoreError
from inventory.core.lists.layouts import SupplierLayout, layout_from_text, layout_text, learned
from inventory.core.lists.listed_twice import listed_twice
from inventory.store.opening.database import open_store
from inventory.store.settings import set_setting, setting, settings_like

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from inventory.core.lists.packing import PackingList
    from inventory.store.opening.database import Store

_PREFIX = "layout "
"""Layouts are kept for the whole store, by the supplier's name."""


def read_list(file: Path, answers: Mapping[str, str], layout: SupplierLayout | None) -> PackingList:
    """Return a packing list as it is understood, with all that is in doubt; stores nothing."""
    from inventory.sheets.packing.packing_list import read_packing_list

    return _noted(read_packing_list(file, answers=answers, layout=layout))


def read_pasted(
    text: bytes, answers: Mapping[str, str], layout: SupplierLayout | None
) -> PackingList:
    """Return a list pasted from a page or an e-mail as it is understood; stores nothing."""
    from inventory.sheets.formats.reading import book_from_bytes
    from inventory.sheets.packing.packing_list import packing_list_of

    book = book_from_bytes("pasted text", text)
    return _noted(packing_list_of(book, answers=answers, layout=layout))


def _noted(listed: PackingList) -> PackingList:
    return replace(listed, remarks=(*listed.remarks, *listed_twice(listed.lines)))


def answers_from(file: Path) -> dict[str, str]:
    """Return the answers that a TOML file gives by the id of their question."""
    import tomllib

    try:
        table = tomllib.loads(_text(file, "answers"))
    except tomllib.TOMLDecodeError as error:
        raise InventoryError(
            f"the answers can't be read: {error}",
            where=str(file),
            remedy='Write a line for each: "the question\'s id" = "your answer".',
        ) from error
    given = table.get("answers", table)
    wrong = [name for name, answer in given.items() if not isinstance(answer, str)]
    if wrong:
        raise InventoryError(
            f"the answer to {wrong[0]!r} is no text", where=str(file), remedy="Put it in quotes."
        )
    return dict(given)


def layout_from(file: Path) -> SupplierLayout:
    """Return the layout that a file holds."""
    return layout_from_text(_text(file, "layout"))


def _text(file: Path, what: str) -> str:
    """Return the text of a file that a person wrote."""
    try:
        return file.read_text(encoding="utf-8")
    except OSError as error:
        raise InventoryError(
            f"the {what} can't be opened ({error.strerror})",
            where=str(file),
            remedy="Check the path.",
        ) from error
    except UnicodeDecodeError as error:
        raise InventoryError(
            f"the {what} can't be read: this is no text in UTF-8",
            where=str(file),
            remedy="Save it as UTF-8 text.",
        ) from error


def store_if_any(address: str) -> Store | None:
    """Open the store; None where there is none yet, so that a list can be looked at before."""
    try:
        return open_store(address)
    except NoStoreError:
        return None


def layout_of(store: Store, supplier: str) -> SupplierLayout | None:
    """Return what was settled about a supplier's lists; None where nothing was."""
    with store.reading() as db:
        text = setting(db, _PREFIX + supplier.casefold())
    return layout_from_text(text) if text else None


def layouts(store: Store) -> list[SupplierLayout]:
    """Return all layouts that are kept."""
    with store.reading() as db:
        return [layout_from_text(text) for text in settings_like(db, _PREFIX).values()]


def keep_layout(store: Store, layout: SupplierLayout) -> None:
    """Keep a layout for the next list of the supplier of this name."""
    with store.writing() as db:
        set_setting(db, _PREFIX + layout.name.casefold(), layout_text(layout))


def remember(store: Store, packing_list: PackingList, answers: Mapping[str, str]) -> bool:
    """Keep the answers that hold for all lists of the supplier; say whether there were any."""
    if not packing_list.supplier:
        return False
    name = packing_list.supplier
    before = layout_of(store, name) or SupplierLayout(name=name)
    after = learned(before, answers)
    if after == before:
        return False
    keep_layout(store, after)
    return True
