"""Where a row lies by the headings above it: crate, bag in bag, sub-kit."""

from __future__ import annotations

from inventory.core.frozen import frozen


@frozen
class Box:
    """One heading that is still open."""

    kind: str
    """crate, bag or sub_kit."""
    name: str
    level: int
    nested: bool
    """True where its contents are set in, so that a row set in less ends it."""
    pieces: int = 1
    """How many of it there are, where the heading itself has a quantity."""


class OpenBoxes:
    """The headings that stand over the next row, outermost first."""

    def __init__(self, defaults: dict[str, str]) -> None:
        """Begin a sheet; `defaults` are names that its title block or its own name gives."""
        self._defaults = defaults
        self._boxes: list[Box] = []
        self._order: list[str] = []
        self._around: tuple[str, str, str, Box | None] | None = None

    @property
    def around(self) -> tuple[str, str, str, Box | None]:
        """Crate, bag and sub-kit that the next row lies in, and a box there are several of."""
        if self._around is None:
            names = (self.name(kind) for kind in ("crate", "bag", "sub_kit"))
            crate, bag, sub_kit = names
            self._around = (crate, bag, sub_kit, self.multiple())
        return self._around

    def open(self, box: Box) -> None:
        """Take a heading; what it can't stand inside of ends there.

        Kinds contain each other in the order in which the list first uses them; of one kind
        only those set in deeper stand inside.
        """
        self._around = None
        if box.kind not in self._order:
            self._order.append(box.kind)
        rank = self._order.index(box.kind)
        while self._boxes:
            last = self._boxes[-1]
            inside = last.nested and box.level > last.level
            if inside or (self._order.index(last.kind) < rank and box.level >= last.level):
                break
            self._boxes.pop()
        self._boxes.append(box)

    def row(self, level: int) -> None:
        """Take a part row: boxes whose contents are set in end at a row that isn't."""
        while self._boxes and self._boxes[-1].nested and level <= self._boxes[-1].level:
            self._boxes.pop()
            self._around = None

    @property
    def set_in(self) -> bool:
        """Say whether the innermost box ends where rows aren't set in any more."""
        return bool(self._boxes) and self._boxes[-1].nested

    def name(self, kind: str) -> str:
        """Return the innermost open box of a kind; the sheet's own where none is open."""
        for box in reversed(self._boxes):
            if box.kind == kind:
                return box.name
        return self._defaults.get(kind, "")

    def multiple(self) -> Box | None:
        """Return the innermost open box that there are several of."""
        return next((box for box in reversed(self._boxes) if box.pieces > 1), None)
