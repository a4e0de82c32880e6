"""Write the unseen lists and their truth: `python -m tests.benchmarks.unseen_lists.make FOLDER`."""

from __future__ import annotations

import json
import sys
from dataclasses import asdict
from pathlib import Path
from random import Random
from typing import TYPE_CHECKING

from sample_kits import spreadsheets
from tests.benchmarks.unseen_lists import (
    offices_abroad,
    offices_estuary,
    offices_freight,
    offices_hand,
    offices_harbour,
    offices_moor,
    offices_odd,
    offices_plain,
    offices_rough,
    offices_shed,
    offices_text,
)
from tests.benchmarks.unseen_lists.printed import write_pdf

if TYPE_CHECKING:
    from collections.abc import Callable

    from tests.benchmarks.unseen_lists.page import Document

OFFICES: tuple[Callable[[Random], Document], ...] = (
    *(offices_plain.otterbank, offices_plain.heronloft, offices_plain.spindrift),
    *(offices_plain.kelp, offices_plain.barnacle, offices_text.ternpoint, offices_text.whinchat),
    *(offices_text.turnstone, offices_text.gullane, offices_rough.sandpiper),
    *(offices_rough.fulmar, offices_rough.dipper, offices_rough.pochard, offices_rough.scoter),
    *(offices_rough.plover, offices_odd.wigeon, offices_odd.garganey, offices_odd.knot),
    *(offices_abroad.gannet, offices_abroad.eider, offices_abroad.avoceta, offices_abroad.smew),
    *(offices_abroad.brent, offices_freight.skua, offices_freight.razorbill),
    *(offices_freight.curlew, offices_freight.dunlin, offices_freight.shearwater),
    *(offices_hand.murre, offices_hand.phalarope, offices_hand.jaeger, offices_hand.whimbrel),
    *(offices_hand.petrel, offices_hand.gadwall),
    *(offices_harbour.pintail, offices_harbour.merlin, offices_harbour.garza),
    *(offices_harbour.bocian, offices_harbour.export, offices_harbour.letter),
    *(offices_harbour.paper, offices_shed.ruff, offices_shed.stint, offices_shed.redshank),
    *(offices_shed.godwit, offices_shed.lapwing, offices_shed.avocet, offices_shed.dotterel),
    *(offices_estuary.sandwort, offices_estuary.bladderwrack, offices_estuary.samphire),
    *(offices_estuary.razorshell, offices_estuary.glasswort, offices_moor.bogbean),
    *(offices_moor.sundew, offices_moor.cottongrass, offices_moor.asphodel),
    offices_moor.tormentil,
)
LISTS_EACH = 4


def write(document: Document, folder: Path, number: int) -> Path:
    """Write one list and, beside it, the truth about its rows; return the list's path."""
    suffix, *how = document.suffix.split(";", 1)
    path = folder / f"{document.name}_{number}.{suffix}"
    sheets = [page.trimmed().sheet for page in document.pages]
    match suffix:
        case _ if how:
            delimiter, encoding = how[0].rsplit(";", 1)
            spreadsheets.write_csv(sheets[0], path, delimiter=delimiter, encoding=encoding)
        case "xlsx":
            spreadsheets.write_xlsx(sheets, path)
        case "xls":
            spreadsheets.write_xls(sheets, path)
        case "ods":
            spreadsheets.write_ods(sheets, path)
        case "pdf":
            write_pdf(sheets, path)
        case _:
            lines = (str(row[0]) if row else "" for row in sheets[0].rows)
            path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    truths = [asdict(row) for page in document.pages for row in page.truths]
    path.with_suffix(".truth.json").write_text(json.dumps(truths, indent=1), encoding="utf-8")
    return path


def make(folder: Path, seed: int, *, each: int = LISTS_EACH) -> list[Path]:
    """Write some lists of each office; the same seed gives the same lists."""
    folder.mkdir(parents=True, exist_ok=True)
    return [
        write(office(Random(f"{seed} {office.__name__} {number}")), folder, number)
        for office in OFFICES
        for number in range(each)
    ]


if __name__ == "__main__":
    make(Path(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else 1)
