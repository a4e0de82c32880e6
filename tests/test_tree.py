"""What the tree holds: fixed names, short files, the trade's words, nothing of one machine."""

from __future__ import annotations

import ast
import re
import subprocess
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

ROOT = Path(__file__).parents[1]
TOP = {
    *(".ci", ".gitignore", "DEVELOPERS.md", "LICENSE", "README.md", "inventory", "labels"),
    *("pyproject.toml", "requirements.lock", "sample_kits", "tests"),
}
MOST_LINES = 300
MOST_FUNCTION_LINES = 40
TERMS = re.compile(r"data_?(matrix|identifier)", re.IGNORECASE)
"""Names of open standards (ISO/IEC 16022, ANSI MH10.8.2) that hold a word of the next line."""
FIXED_NAMES = {"handle_data"}
"""What the standard library calls by that name (html.parser.HTMLParser)."""
EMPTY_WORDS = {"data", "info", "manager", "handler", "helper", "util", "utils", "process"}
MACHINE = (
    *(f"/{folder}/" for folder in ("work", "tmp", "opt", "root", "home")),
    *("C:\\Users", "pypi.org", "pythonhosted", "registry.npmjs", "deb.debian", "debian.org/debian"),
    *("shared/reference", "DESIGN.md"),
)
TEXT = {".py", ".md", ".toml", ".csv", ".txt", ".js", ".css", ".html", ".lock", ".sql", "", ".mako"}


def kept_files() -> list[Path]:
    """Return the files that git keeps or would keep; of an unpacked archive, all of them."""
    command = ["git", "-C", str(ROOT), "ls-files", "-co", "--exclude-standard"]
    listed = subprocess.run(command, check=False, capture_output=True, text=True)
    if listed.returncode == 0:
        paths = [ROOT / line for line in listed.stdout.splitlines()]
    else:
        paths = [path for name in TOP for path in [ROOT / name, *(ROOT / name).rglob("*")]]
    return [path for path in paths if path.is_file() and "__pycache__" not in path.parts]


KEPT = kept_files()
PYTHON = [path for path in KEPT if path.suffix == ".py"]


def short_name(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


def long_parts(path: Path) -> list[str]:
    """Return one sentence for a file that is too long and for each function that is."""
    text = path.read_text(encoding="utf-8")
    lines = len(text.splitlines())
    wrong = [f"{lines} lines"] if lines > MOST_LINES else []
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            length = (node.end_lineno or node.lineno) - node.lineno + 1
            if length > MOST_FUNCTION_LINES:
                wrong.append(f"{node.name} has {length} lines")
    return wrong


def empty_names(path: Path) -> list[str]:
    """Return the names of the file, its functions and classes that say nothing."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    kinds = (ast.FunctionDef, ast.AsyncFunctionDef, ast.ClassDef)
    names = [path.stem, *(node.name for node in ast.walk(tree) if isinstance(node, kinds))]
    parts = re.compile(r"[A-Z]?[a-z]+|[A-Z]+")
    chosen = [name for name in names if name not in FIXED_NAMES]
    spoken = {name: map(str.lower, parts.findall(TERMS.sub("", name))) for name in chosen}
    return [name for name, words in spoken.items() if EMPTY_WORDS.intersection(words)]


def machine_words(path: Path) -> list[str]:
    text = path.read_bytes().decode("utf-8", errors="replace")  # some samples aren't UTF-8
    return [word for word in MACHINE if word in text]


def lacking_docstring(path: Path) -> list[str]:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    return [] if ast.get_docstring(tree) else ["no docstring"]


def offences(paths: Iterable[Path], found: Callable[[Path], list[str]]) -> dict[str, list[str]]:
    named = {short_name(path): found(path) for path in paths}
    return {name: wrong for name, wrong in named.items() if wrong}


def test_the_top_level_holds_only_the_fixed_names() -> None:
    assert {path.relative_to(ROOT).parts[0] for path in KEPT} <= TOP


def test_files_and_functions_stay_short() -> None:
    assert offences(PYTHON, long_parts) == {}


def test_names_say_something() -> None:
    assert offences(PYTHON, empty_names) == {}


def test_nothing_names_one_machine_or_a_registry() -> None:
    texts = [path for path in KEPT if path.suffix in TEXT and path != Path(__file__)]
    assert offences(texts, machine_words) == {}


def test_every_package_module_says_what_it_is() -> None:
    packages = [path for path in PYTHON if short_name(path).startswith(("inventory/", "labels/"))]
    assert offences(packages, lacking_docstring) == {}


def test_a_planted_long_file_or_function_is_found(tmp_path: Path) -> None:
    path = tmp_path / "long.py"
    path.write_text("def f():\n" + "    x = 1\n" * 300)
    assert long_parts(path) == ["301 lines", "f has 301 lines"]
    path.write_text("def f():\n" + "    x = 1\n" * 39)
    assert long_parts(path) == []


def test_a_planted_empty_name_is_found(tmp_path: Path) -> None:
    path = tmp_path / "row_utils.py"
    path.write_text("class CrateManager: ...\ndef metadata(): ...\ndef process_row(): ...\n")
    assert empty_names(path) == ["row_utils", "CrateManager", "process_row"]


def test_a_planted_machine_path_is_found(tmp_path: Path) -> None:
    path = tmp_path / "notes.md"
    path.write_text(f"see {MACHINE[1]}x")
    assert machine_words(path) == [MACHINE[1]]
