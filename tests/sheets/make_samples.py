"""Make the sample lists of the 25 features: `python -m tests.sheets.make_samples [FOLDER]`.

Each list is small and shows one trouble of the lists that supplier's offices send. Suppliers,
orders and part numbers are invented; only AN, MS and NAS numbers are those of public
specifications. What each row is has been worked out by hand in `tests/cases/features.toml`.
"""

from __future__ import annotations

import sys
from pathlib import Path

from sample_kits.spreadsheets import write_csv, write_ods, write_xls, write_xlsx
from tests.sheets import cell_samples, layout_samples
from tests.sheets.broken_books import with_cached_values

FOLDER = Path(__file__).parent / "samples"


def make(folder: Path) -> None:
    """Write every sample into a folder."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, function in sorted({**vars(layout_samples), **vars(cell_samples)}.items()):
        if name.startswith("f") and name[1:3].isdigit() and name != "f22_plain_list":
            sheets = function()
            path = folder / f"{name}.xlsx"
            write_xlsx(sheets if isinstance(sheets, list) else [sheets], path)
    values = {"D2": "4", "D3": "#DIV/0!", "D4": "0"}
    with_cached_values(folder / "f21_formulas_with_values_and_errors.xlsx", values)
    plain = layout_samples.f22_plain_list()
    write_xlsx([plain], folder / "f22_plain.xlsx")
    write_xls([plain], folder / "f22_plain.xls")
    write_ods([plain], folder / "f22_plain.ods")
    write_csv(plain, folder / "f22_semicolon_cp1252.csv", delimiter=";", encoding="cp1252")
    write_csv(plain, folder / "f22_tab_utf16.tsv", delimiter="\t", encoding="utf-16")
    write_csv(plain, folder / "f22_comma_bom.csv", encoding="utf-8-sig")


if __name__ == "__main__":
    make(Path(sys.argv[1]) if sys.argv[1:] else FOLDER)
