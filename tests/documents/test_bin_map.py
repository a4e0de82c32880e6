from __future__ import annotations

import pypdfium2

from inventory.documents.bin_map import MappedBin, bin_map_pdf
from tests.documents.pages import HEAD


def test_a_long_name_stays_in_its_field_of_the_bin_map() -> None:
    names = [f"LONG-BIN-NAME-0123456789-{number}" for number in range(4)]
    pdf = bin_map_pdf(HEAD, [MappedBin(name=name) for name in names])
    read = pypdfium2.PdfDocument(pdf)[0].get_textpage()
    field = (210 - 2 * 13) / 4 * 72 / 25.4
    for place, name in enumerate(names):
        start, count = read.search(name).get_next()
        left = 13 * 72 / 25.4 + place * field
        assert read.get_charbox(start)[0] >= left
        assert read.get_charbox(start + count - 1)[2] <= left + field
