"""Beginning a kit, and finding the one that is meant."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError, NotFoundError
from inventory.store.kits import Kit, add_kit, all_kits

if TYPE_CHECKING:
    from datetime import datetime

    from inventory.store.opening.database import Store

_CODE = re.compile(r"[0-9A-Z]{2}")


def begin_kit(store: Store, name: str, code: str, now: datetime) -> Kit:
    """Begin a kit with a name and a two-character code for its labels."""
    name = " ".join(name.split())
    if not name:
        raise InventoryError("a kit needs a name", remedy="Give it one, for instance `Tarn T2`.")
    with store.writing() as db:
        kits = all_kits(db)
        if any(kit.name.casefold() == name.casefold() for kit in kits):
            raise InventoryError(
                f"there is a kit {name!r} already", remedy="Give this one another name."
            )
        taken = {kit.code for kit in kits}
        return add_kit(db, _code(code, name, taken), name, now.isoformat())


def _code(wanted: str, name: str, taken: set[str]) -> str:
    if wanted:
        code = wanted.upper()
        if not _CODE.fullmatch(code) or code in taken:
            raise InventoryError(
                f"{wanted!r} can't be the kit's code",
                remedy="Two characters of A-Z and 0-9 that no other kit here has.",
            )
        return code
    signs = re.sub(r"[^0-9A-Z]", "", name.upper()) or "K"
    offered = [signs[0] + second for second in signs[1:] + "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"]
    return next((code for code in offered if code not in taken), offered[0])


def list_kits(store: Store) -> list[Kit]:
    """Return the kits of the store."""
    with store.reading() as db:
        return all_kits(db)


def choose_kit(store: Store, wanted: str) -> Kit:
    """Return the kit of this name or code; where the store has only one, that one."""
    kits = list_kits(store)
    if not kits:
        raise NotFoundError(
            "the store holds no kit yet", remedy="Begin one: kitwright kit new NAME"
        )
    if not wanted and len(kits) == 1:
        return kits[0]
    named = "; ".join(f"{kit.name} ({kit.code})" for kit in kits)
    if not wanted:
        raise InventoryError(
            f"the store holds {len(kits)} kits: {named}", remedy="Say which one with --kit."
        )
    found = [kit for kit in kits if wanted.casefold() in (kit.name.casefold(), kit.code.casefold())]
    if len(found) != 1:
        raise NotFoundError(f"there is no kit {wanted!r}", remedy=f"There are: {named}.")
    return found[0]
