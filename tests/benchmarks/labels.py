"""How fast labels are written: `python -m tests.benchmarks.labels`.

Each figure is a ratio to a floor in the same run: a PDF of the same marks written without any
PDF library, the QR encoder alone, the import of the PDF library alone.
"""

from __future__ import annotations

import argparse
import json
import re
import statistics
import subprocess
import sys
import time
import zlib
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import segno
from barcode.codex import Code128

from labels import Label, Line, Role, load_stock, operators, symbol, write_pdf
from labels.geometry import points

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

ROUNDS = 5
STOCK = load_stock("a4-2x7-99.1x38.1")
WORDS = "RIB NOSE INBD"
LINEAR_GOAL, BYTES_GOAL, SQUARE_GOAL, GROWTH_GOAL = 4.0, 150.0, 1.2, 10.5
SHEET_GOAL = 6.5
ALARM = 12.0
"""A ratio above this fails the run; goals alone are only told."""


@dataclass(frozen=True, slots=True)
class Result:
    """One figure beside its goal."""

    what: str
    figure: float
    goal: float
    detail: str
    unit: str = "x"


def codes(count: int, first: int = 0) -> list[str]:
    """Return different codes of twelve characters."""
    return [f"F-{n % 10000:04d}A-{n // 10000:03d}L" for n in range(first, first + count)]


def linear_labels(texts: Sequence[str]) -> list[Label]:
    """Return labels with Code 128 alone, two lines and the small print."""
    return [
        Label(content=text, lines=(Line(text, Role.NUMBER), Line(WORDS)), square=None)
        for text in texts
    ]


def square_labels(texts: Sequence[str]) -> list[Label]:
    """Return labels with QR alone."""
    lines = (Line(WORDS),)
    return [Label(content=text, lines=lines, linear=False) for text in texts]


def hand_written(texts: Sequence[str]) -> bytes:
    """Return the marks of `linear_labels` as a PDF made without any PDF library."""
    rects = list(STOCK.rects())
    pages = []
    for start in range(0, len(texts), len(rects)):
        marks = []
        for text, rect in zip(texts[start : start + len(rects)], rects, strict=False):
            x, y = points(rect.x + 8), points(297 - rect.y - 30)
            lines = f"({text}) Tj 0 12 Td ({WORDS}) Tj 0 12 Td ({text}) Tj"
            marks.append(
                f"q 1.44 0 0 30.24 {x:.4f} {y:.4f} cm {bars(text)} f Q"
                f" BT /F1 8 Tf {x:.2f} {y - 10:.2f} Td {lines} ET"
            )
        pages.append(zlib.compress("\n".join(marks).encode(), 6))
    return assembled(pages)


def bars(text: str) -> str:
    """Return a rectangle for each bar."""
    modules = Code128(text, writer=None).build()[0]
    return " ".join(
        f"{run.start()} 0 {run.end() - run.start()} 1 re" for run in re.finditer("1+", modules)
    )


def assembled(pages: Sequence[bytes]) -> bytes:
    """Return a PDF file of compressed page streams."""
    kids = " ".join(f"{4 + 2 * n} 0 R" for n in range(len(pages)))
    objects = [
        b"<</Type/Catalog/Pages 2 0 R>>",
        f"<</Type/Pages/Count {len(pages)}/Kids[{kids}]>>".encode(),
        b"<</Type/Font/Subtype/Type1/BaseFont/Helvetica>>",
    ]
    for number, stream in enumerate(pages):
        objects.append(
            f"<</Type/Page/Parent 2 0 R/MediaBox[0 0 595.28 841.89]/Contents {5 + 2 * number} 0 R"
            "/Resources<</Font<</F1 3 0 R>>>>>>".encode()
        )
        head = f"<</Length {len(stream)}/Filter/FlateDecode>>stream\n".encode()
        objects.append(head + stream + b"\nendstream")
    written = bytearray(b"%PDF-1.4\n")
    places = []
    for number, content in enumerate(objects, start=1):
        places.append(len(written))
        written += b"%d 0 obj\n" % number + content + b"\nendobj\n"
    table = b"".join(b"%010d 00000 n \n" % place for place in places)
    written += b"xref\n0 %d\n0000000000 65535 f \n" % (len(places) + 1) + table
    return bytes(written + b"trailer<</Size %d/Root 1 0 R>>\n%%%%EOF\n" % (len(places) + 1))


def forget() -> None:
    """Empty every cache of symbols, so that each round begins anew."""
    for cache in (symbol.cells, operators._cell_runs, operators._bar_part):
        cache.cache_clear()


def cpu(work: Callable[[], object]) -> float:
    """Return the processor seconds that the work takes."""
    begun = time.process_time()
    work()
    return time.process_time() - begun


def paired(ours: Callable[[], object], floor: Callable[[], object]) -> tuple[float, float]:
    """Return the medians of both, run in turns."""
    times = [(cpu(ours), cpu(floor)) for _ in range(ROUNDS)]
    return statistics.median(one for one, _ in times), statistics.median(one for _, one in times)


def linear(count: int) -> list[Result]:
    """Measure labels with Code 128 against the hand-written PDF, and their growth."""
    first = iter(range(0, 10**7, 10 * count))  # no code twice, so that no cache helps
    write_pdf(linear_labels(codes(14, next(first))), STOCK)
    mine, floor = paired(
        lambda: write_pdf(linear_labels(codes(count, next(first))), STOCK),
        lambda: hand_written(codes(count)),
    )
    size = len(write_pdf(linear_labels(codes(count)), STOCK)) / count
    long, short = paired(
        lambda: write_pdf(linear_labels(codes(10 * count, next(first))), STOCK),
        lambda: write_pdf(linear_labels(codes(count, next(first))), STOCK),
    )
    detail = f"{mine * 1e3:.0f} ms against {floor * 1e3:.0f} ms"
    return [
        Result(f"{count} linear labels / hand-written PDF", mine / floor, LINEAR_GOAL, detail),
        Result(
            "bytes a linear label", size, BYTES_GOAL, f"{size * count / 1e3:.0f} kB in all", "B"
        ),
        Result("growth for ten times as many", long / short, GROWTH_GOAL, f"{long * 1e3:.0f} ms"),
    ]


def square(count: int) -> list[Result]:
    """Measure QR labels against the encoder alone, anew and printed again."""

    def ours() -> None:
        forget()
        write_pdf(square_labels(codes(count)), STOCK)

    def encoder() -> None:
        for text in codes(count):
            segno.make(text, micro=False, error="m")

    mine, floor = paired(ours, encoder)
    again = cpu(lambda: write_pdf(square_labels(codes(count)), STOCK))
    detail = f"{mine * 1e3:.0f} ms against {floor * 1e3:.0f} ms"
    return [
        Result(f"{count} QR labels / encoder alone", mine / floor, SQUARE_GOAL, detail),
        Result("the same printed again / anew", again / mine, 0.2, f"{again * 1e3:.0f} ms"),
    ]


def sheet() -> list[Result]:
    """Measure one sheet of 30 bin labels as a process of its own."""
    ours = (
        "from inventory.documents.bin_labels import BinLabel, bin_labels\n"
        "bin_labels([BinLabel(own_id=f'T2{n:04d}X', name=f'B-{n:02d}') for n in range(30)])"
    )
    mine, floor = (
        statistics.median(fresh_seconds(text) for _ in range(ROUNDS))
        for text in (ours, "import reportlab.pdfgen.canvas")
    )
    detail = f"{mine * 1e3:.0f} ms against {floor * 1e3:.0f} ms, wall clock"
    return [Result("one sheet of 30 / import of reportlab", mine / floor, SHEET_GOAL, detail)]


def fresh_seconds(program: str) -> float:
    """Return how long a fresh interpreter takes for a program."""
    begun = time.perf_counter()
    subprocess.run([sys.executable, "-c", program], check=True)
    return time.perf_counter() - begun


def main() -> int:
    """Print the table; return 1 where a ratio is alarming."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--labels", type=int, default=3000)
    parser.add_argument("--json", type=Path)
    parser.add_argument("--quick", action="store_true", help="a tenth of the labels")
    asked = parser.parse_args()
    if asked.quick:
        asked.labels //= 10
    results = [*linear(asked.labels), *square(asked.labels // 3), *sheet()]
    for one in results:
        met = "met" if one.figure <= one.goal else "MISSED"
        print(f"{one.what:42} {one.figure:8.2f}  goal {one.goal:6.1f}  {met:6}  {one.detail}")
    if asked.json:
        rows = [{**asdict(one), "figure": round(one.figure, 3)} for one in results]
        asked.json.write_text(json.dumps(rows, indent=1) + "\n", encoding="utf-8")
    return int(results[0].figure > ALARM)


if __name__ == "__main__":
    sys.exit(main())
