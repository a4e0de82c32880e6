"""The demo: the whole job on a small invented kit, each act as a person would type it."""

from __future__ import annotations

import io
import shlex
import shutil
import sys
import tempfile
from pathlib import Path
from typing import Annotated

import typer

from inventory.cli import context
from inventory.cli.show import note, say
from inventory.core.errors import InventoryError

FILES = ("packing_list.xlsx", "counts.csv", "put_away.csv", "plan.xlsx")
SCENES: tuple[tuple[str, tuple[str, ...]], ...] = (
    (
        "The evening class begins a kit and reads the supplier's packing list.",
        ('kit new "Tarn T2 rudder" --code T2', "packing-list read packing_list.xlsx"),
    ),
    (
        "Three crates are opened and counted; list against count gives the findings.",
        (
            "crate open 1",
            "crate open 2",
            "crate open 3",
            "crate count --file counts.csv",
            "crate close 1",
            "crate close 2",
            "crate close 3",
            "findings -o findings.xlsx",
        ),
    ),
    (
        "Everything good goes into bins, and the bins get labels.",
        (
            'bin add S-01..S-05 --shelf "steel shelf"',
            'bin add S-01-L S-02-L S-03-L S-04-L --shelf "left hooks"',
            'bin add S-01-R S-02-R S-03-R S-04-R --shelf "right hooks"',
            'bin add D-01..D-03 --shelf "drawer cabinet"',
            'bin add RACK-1 --shelf "wall rack"',
            "bin put --file put_away.csv",
            "labels bins -o labels.pdf",
            "where T2-RU-0412",
        ),
    ),
    (
        "The plan says what each step needs; what is short shows before the work starts.",
        ("plan read plan.xlsx", "short", "ready", "pick 14-01 -o picklist.pdf"),
    ),
    (
        "Parts are scanned out: the step first, then bin and part. The last one belongs elsewhere.",
        ("scan", "step done 14-01 --yes", "ready", "history"),
    ),
)
SCANS = ("14-01", "S-04", "T2-RU-0701", "S-04-L", "T2-RU-0703", "S-01-R", "T2-RU-0412")
"""What the scanner types: step, then bins and parts; the last part belongs to another step."""


def add_to(app: typer.Typer) -> None:
    """Put the command into the tree."""
    app.command("demo")(demo)


def demo(
    into: Annotated[
        Path | None, typer.Option(metavar="FOLDER", help="A new folder; else a scratch one.")
    ] = None,
) -> None:
    """Walk through the whole job with a small invented kit, and leave its papers behind.

    Example: kitwright demo --into demo
    """
    folder = _filled_folder(into)
    numbered = list(enumerate(SCENES, 1))
    for number, (story, lines) in numbered:
        say(f"\n[{number}/{len(numbered)}] {story}")
        for line in lines:
            _typed(line, folder)
    say(f"\nLeft behind in {folder}:")
    for name in ("labels.pdf", "picklist.pdf", "findings.xlsx", "demo.kitwright"):
        say(f"  {name}")
    note(
        f"look around: kitwright --store {shlex.quote(str(folder / 'demo.kitwright'))} ready --all"
    )
    note("It records; it never says that a part is good. The plans and the supplier decide.")


def _filled_folder(into: Path | None) -> Path:
    """Return the folder of the demo with the kit's files in it."""
    kit = _kit()
    try:
        folder = _folder(into)
        for name in FILES:
            shutil.copyfile(kit / name, folder / name)
    except OSError as error:
        raise InventoryError(
            f"the kit can't be laid there: {error.strerror}",
            where=str(into or tempfile.gettempdir()),
            remedy="Name a new folder that you may write to: kitwright demo --into FOLDER",
        ) from None
    return folder


def _folder(into: Path | None) -> Path:
    if into is None:
        return Path(tempfile.mkdtemp(prefix="kitwright-demo-"))
    try:
        into.mkdir(parents=True)
    except FileExistsError:
        raise InventoryError(
            "the folder is there already", where=str(into), remedy="Name a new one."
        ) from None
    return into


def _kit() -> Path:
    """Return the folder of the sample kit: inside the package, or beside it in a clone."""
    package = Path(__file__).parent.parent
    for folder in (package / "demo_kit", package.parent / "sample_kits" / "tarn_rudder"):
        if folder.is_dir():
            return folder
    raise InventoryError("the sample kit isn't installed", remedy="Install Kitwright anew.")


def _typed(line: str, folder: Path) -> None:
    """Run one command line in the folder, as if a person had typed it."""
    from inventory.cli.app import run

    say(f"\n$ kitwright {line}")
    sys.stdout.flush()
    words = [str(folder / word) if _is_file(word) else word for word in shlex.split(line)]
    before, scans = sys.stdin, io.StringIO("".join(f"{code}\n" for code in SCANS))
    typed = context.typed
    try:
        sys.stdin = scans if line == "scan" else before
        code = run(["--store", str(folder / "demo.kitwright"), "--by", "Class", *words])
    finally:
        sys.stdin = before
        context.typed = typed
    if code:
        raise InventoryError(f"the demo stopped at: kitwright {line}")


def _is_file(word: str) -> bool:
    return word in FILES or Path(word).suffix in (".pdf", ".xlsx")
