"""Who may import whom."""

from __future__ import annotations

import ast
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
COMPUTING = {"highspy", "numpy", "rapidfuzz", "holidays"}
"""Libraries that core may use, each in one module and inside the function that needs it; numpy
comes with highspy."""
ALLOWED = {
    "inventory.core": {"inventory.core", *COMPUTING},
    "inventory.sheets": {"inventory.core", "xlrd", "pypdfium2"},
    "inventory.store": {
        "inventory.core",
        "sqlalchemy",
        "alembic",
        "platformdirs",
        "psycopg",
        "PIL",
    },
    "inventory.jobs": {"inventory.core", "inventory.store", "inventory.sheets", "PIL"},
    "inventory.documents": {
        *("inventory.core", "labels", "reportlab", "openpyxl", "icalendar", "PIL"),
    },
    "inventory.cli": {
        *("inventory.core", "inventory.jobs", "inventory.documents", "typer", "rich"),
        "platformdirs",
    },
    "inventory.web": {
        *("inventory.core", "inventory.jobs", "inventory.documents", "starlette", "uvicorn"),
        *("anyio", "jinja2", "markupsafe", "python_multipart", "zxingcpp", "trustme", "PIL"),
    },
    "inventory": {"inventory.cli"},
    "labels": {"labels", "barcode", "segno", "zxingcpp", "reportlab"},
}
EXTRA = {"inventory.cli.network.serve": {"inventory.web", "uvicorn"}}


def name_of(path: Path, root: Path) -> str:
    return ".".join(path.relative_to(root).with_suffix("").parts).removesuffix(".__init__")


def imports(path: Path, root: Path) -> list[tuple[str, bool]]:
    """Return every module that a file imports, lazy ones too, and whether at the top."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    top = set(map(id, ast.iter_child_nodes(tree)))
    package = name_of(path, root).split(".")[: None if path.name == "__init__.py" else -1]
    found = []
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            found += [(alias.name, id(node) in top) for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            base = package[: len(package) - node.level + 1] if node.level else []
            module = ".".join([*base, *([node.module] if node.module else [])])
            bare = module in {"inventory", ""}
            names = [f"{module}.{alias.name}" if bare else module for alias in node.names]
            found += [(name, id(node) in top) for name in names]
    return found


def layer_of(module: str) -> str:
    return max((layer for layer in ALLOWED if f"{module}.".startswith(f"{layer}.")), key=len)


def within(module: str, allowed: set[str]) -> bool:
    return any(f"{module}.".startswith(f"{name}.") for name in allowed)


def violations(root: Path) -> list[str]:
    """Return one sentence for each import that the table forbids."""
    wrong = []
    homes: dict[str, set[str]] = {}
    for path in sorted([*root.glob("inventory/**/*.py"), *root.glob("labels/**/*.py")]):
        module = name_of(path, root)
        layer = layer_of(module)
        allowed = ALLOWED[layer] | EXTRA.get(module, set()) | ({layer} - {"inventory"})
        allowed |= {"inventory.__version__"} if layer != "labels" else set()
        for name, at_top in imports(path, root):
            library = name.split(".")[0]
            if library not in sys.stdlib_module_names and not within(name, allowed):
                wrong.append(f"{module} imports {name}")
            if layer == "inventory.core" and library in COMPUTING:
                homes.setdefault(library, set()).add(module)
                wrong += [f"{module} imports {name} at the top"] if at_top else []
    return wrong + [f"{name} is used in {sorted(at)}" for name, at in homes.items() if len(at) > 1]


def test_every_import_goes_downward() -> None:
    wrong = violations(ROOT)
    assert not wrong, "\n".join(wrong)


@pytest.mark.parametrize(
    ("file", "line", "sentence"),
    [
        ("inventory/core/a.py", "from inventory.store import b", "imports inventory.store"),
        ("inventory/core/a.py", "from inventory import store", "imports inventory.store"),
        ("inventory/core/a.py", "from ..store import b", "imports inventory.store"),
        ("inventory/core/a.py", "from .. import store", "imports inventory.store"),
        ("inventory/core/a.py", "import highspy", "imports highspy at the top"),
        ("inventory/core/a.py", "def f():\n    import openpyxl", "imports openpyxl"),
        ("inventory/jobs/a.py", "def f():\n    import typer", "imports typer"),
        ("inventory/sheets/a.py", "import inventory.jobs.b", "imports inventory.jobs.b"),
        ("inventory/cli/a.py", "import inventory.web.app", "imports inventory.web.app"),
        ("inventory/web/a.py", "if x:\n    import inventory.cli", "imports inventory.cli"),
        ("labels/a.py", "from inventory.core import items", "imports inventory.core"),
    ],
)
def test_a_planted_upward_import_is_found(
    file: str, line: str, sentence: str, tmp_path: Path
) -> None:
    path = tmp_path / file
    path.parent.mkdir(parents=True)
    path.write_text(line)
    assert violations(tmp_path) == [f"{file[:-3].replace('/', '.')} {sentence}"]


def test_a_computing_library_has_one_home(tmp_path: Path) -> None:
    core = tmp_path / "inventory" / "core"
    core.mkdir(parents=True)
    for name in ("a.py", "b.py"):
        (core / name).write_text("def f():\n    import highspy")
    assert violations(tmp_path) == [
        "highspy is used in ['inventory.core.a', 'inventory.core.b']",
    ]


def test_serve_alone_starts_the_web_app(tmp_path: Path) -> None:
    path = tmp_path / "inventory" / "cli" / "network" / "serve.py"
    path.parent.mkdir(parents=True)
    path.write_text("def f():\n    import inventory.web.app")
    assert violations(tmp_path) == []
