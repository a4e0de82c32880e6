"""Counting by weight over the network, and what the scale can't tell."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from inventory.core.cautions import WEIGHED
from inventory.jobs.receiving.counting import ask_about
from inventory.jobs.receiving.weighing import TypedWeighing, count_weighed
from inventory.web.acts.act import Act, told
from inventory.web.acts.counting import COUNTED, counted_words, how_counted, typed_count
from inventory.web.fields import HAND, Field, Kind

if TYPE_CHECKING:
    from inventory.jobs.receiving.weighing import Weighed
    from inventory.web.fields import Fields
    from inventory.web.visit import Visit


def _weigh(at: Visit, fields: Fields) -> dict[str, Any]:
    typed = typed_count(fields)
    ask_about(at.bench, typed.asked)
    counted, found = count_weighed(
        at.bench, typed, _scale(fields), at.slip(fields.text("note")), again=how_counted(fields)
    )
    about = "about " if counted.about else ""
    return told(about + counted_words(counted), *_how_sure(found), WEIGHED)


def _scale(fields: Fields) -> TypedWeighing:
    return TypedWeighing(
        gross=fields.text("gross"),
        tare=fields.text("tare") or "0 g",
        step=fields.text("step"),
        readings=tuple(each for each in map(str.strip, fields.text("sample").split(";")) if each),
        pieces_each=fields.text("sample_pieces"),
        spread=fields.text("spread"),
        inside=fields.yes("inside"),
    )


def _how_sure(found: Weighed) -> list[str]:
    result = found.result
    doubt = [f"look again: {found.doubt}"] if found.doubt else []
    if result.exact:
        return ["the scale tells it to the piece", *doubt]
    if result.sample_needed is None:
        most = f"it counts up to {result.largest_exact} pieces exactly"
        return [f"no sample makes it exact on this scale: {most}", *doubt]
    return [f"a sample of {result.sample_needed} pieces would make it exact", *doubt]


WEIGHING = (
    Act(
        "count-weighed",
        "Record how many pieces of a part lie in a crate or bag, by their weight.",
        (
            *COUNTED,
            HAND,
            Field("sample_pieces", "Pieces in each weighing of the sample.", needed=True),
            Field("sample", "Net mass of the sample, as `12.5 g`; several with `;`.", needed=True),
            Field("gross", "What all the others weigh with their box, as `61.6 g`.", needed=True),
            Field("tare", "What the empty box weighs; nothing where the scale was zeroed."),
            Field("step", "The last digit the scale shows, as `0.1 g`.", needed=True),
            Field("spread", "Per cent by which pieces differ, where it is known."),
            Field("inside", "The sample belongs to the count; it wasn't weighed again.", Kind.YES),
            Field("damaged", "Damaged ones among them."),
            Field("wrong", "Other parts that lay where this one should."),
        ),
        _weigh,
    ),
)
