"""Labels: symbols, stock and layout; knows no database, no part and no kit."""

from labels.calibration import Measured, calibrated, calibration_pdf, rulers
from labels.capacity import Capacity, capacity
from labels.errors import LabelError
from labels.fitting import fit, for_all, remarks, stocks_for
from labels.label import Flag, Label, Line, Role, Shape
from labels.pdf import write_pdf
from labels.printer import UNKNOWN_PRINTER, Printer
from labels.printer_file import keep_printer, load_printers
from labels.sheet import Run, next_free
from labels.stock import LabelStock
from labels.stock_file import load_stock, stock_names
from labels.symbol import Square

__all__ = [
    "UNKNOWN_PRINTER",
    "Capacity",
    "Flag",
    "Label",
    "LabelError",
    "LabelStock",
    "Line",
    "Measured",
    "Printer",
    "Role",
    "Run",
    "Shape",
    "Square",
    "calibrated",
    "calibration_pdf",
    "capacity",
    "fit",
    "for_all",
    "keep_printer",
    "load_printers",
    "load_stock",
    "next_free",
    "remarks",
    "rulers",
    "stock_names",
    "stocks_for",
    "write_pdf",
]
