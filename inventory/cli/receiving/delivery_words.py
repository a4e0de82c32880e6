"""A delivery in words, for the terminal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.documents.delivery_facts import named_facts, when_words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from inventory.core.receiving.delivery import Delivery


def delivery_lines(whole: Delivery) -> Iterator[str]:
    """Return the lines that show all that is known of a delivery; what isn't known is left out."""
    facts = whole.facts
    yield f"delivery {whole.number}: {when_words(facts)}"
    for word, value in named_facts(facts):
        if value:
            yield f"  {word:<15} {value}"
    if whole.lists:
        yield f"  {'packing lists':<15} {', '.join(map(str, whole.lists))}"
    for one in whole.exceptions:
        crate = f"crate {one.crate} " if one.crate else ""
        where = "on the receipt" if one.on_receipt else "NOT on the receipt"
        yield f"  {'exception':<15} {crate}{one.state}: {one.words} ({where})"
