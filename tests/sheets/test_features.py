"""The 25 troubles of packing lists, each read from its own sample row by row."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from inventory.core.lists.packing_audit import audit_rows
from inventory.sheets.packing.packing_list import read_packing_list
from tests.sheets.make_samples import make

SAMPLES = Path(__file__).parent / "samples"
CASES = tomllib.loads((Path(__file__).parents[1] / "cases" / "features.toml").read_text("utf-8"))


def amount(value: object) -> str:
    return "-" if value is None else str(value)


def said(entry: dict[str, object], *, sheets: bool) -> str:
    """Return an entry in the words of the cases; of a question only that there is one."""
    words = [str(entry["sheet"])] if sheets else []
    words += [str(entry["row"]), str(entry["class"])]
    if entry["class"] == "part":
        three = (entry[name] for name in ("ordered", "shipped", "back_ordered"))
        words += [str(entry["part"]), str(entry["hand"]), "/".join(map(amount, three))]
        words += [str(entry["unit"])]
        words += [
            f"{side[0].upper()}{entry[side]}" for side in ("left", "right") if has(entry, side)
        ]
        names = (("crate", "crate"), ("bag", "bag"), ("sub", "sub_kit"), ("rev", "revision"))
        words += [f"{short}={entry[name]}" for short, name in names if entry[name]]
        words += [f"length={millimetres(entry['length_nm'])}"] if entry["length_nm"] else []
    words += ["?"] if entry["questions"] else []
    return " ".join(word.replace(" ", "_") for word in words)


def has(entry: dict[str, object], name: str) -> bool:
    return entry[name] is not None


def millimetres(nanometres: object) -> str:
    return f"{int(str(nanometres)) / 1e6:g}"


@pytest.mark.parametrize("case", CASES["feature"], ids=lambda case: case["name"])
def test_feature(case: dict[str, str]) -> None:
    read = read_packing_list(SAMPLES / case["file"])
    entries = audit_rows(read)
    sheets = len({entry["sheet"] for entry in entries}) > 1
    expected = [row.partition("?")[0] + ("?" if "?" in row else "") for row in case["rows"]]
    assert [said(entry, sheets=sheets) for entry in entries] == expected


@pytest.mark.parametrize("case", CASES["feature"], ids=lambda case: case["name"])
def test_question_names_what_is_asked(case: dict[str, str]) -> None:
    entries = audit_rows(read_packing_list(SAMPLES / case["file"]))
    asked = [str(entry["questions"]) for entry in entries if entry["questions"]]
    wanted = [row.partition("?")[2].replace("_", " ") for row in case["rows"] if "?" in row]
    assert [want for want, ids in zip(wanted, asked, strict=True) if want not in ids] == []


def test_samples_are_what_their_script_makes(tmp_path: Path) -> None:
    make(tmp_path)
    made = {path.name: path.read_bytes() for path in tmp_path.iterdir()}
    kept = {path.name: path.read_bytes() for path in SAMPLES.iterdir()}
    assert sorted(made) == sorted(kept)
    assert [name for name in made if made[name] != kept[name]] == []
