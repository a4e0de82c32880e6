"""Labels: symbols, stock and layout; knows no database, no part and no kit."""

from labels.errors import LabelError
from labels.fitting import fit, longest_code128, remarks, stocks_for
from labels.label import Flag, Label, Line, Role, Shape
from labels.pdf import write_pdf
from labels.printer import UNKNOWN_PRINTER, Printer
from labels.sheet import Run, next_free
from labels.stock import LabelStock
from labels.stock_file import load_stock, stock_names
from labels.symbol import Square

__all__ = [
    "UNKNOWN_PRINTER",
    "Flag",
    "Label",
    "LabelError",
    "LabelStock",
    "Line",
    "Printer",
    "Role",
    "Run",
    "Shape",
    "Square",
    "fit",
    "load_stock",
    "longest_code128",
    "next_free",
    "remarks",
    "stock_names",
    "stocks_for",
    "write_pdf",
]
