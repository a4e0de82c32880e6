from __future__ import annotations

import pytest

from tests.benchmarks.label_photos import CONDITIONS, STOCKS, Condition, photograph, picture, read
from tests.documents.test_label_proof import KINDS

SHOTS = 3


@pytest.mark.parametrize("taken", [CONDITIONS[0], CONDITIONS[-1]], ids=lambda taken: taken.name)
@pytest.mark.parametrize("kind", STOCKS)
def test_a_phone_reads_every_kind(kind: str, taken: Condition) -> None:
    label = KINDS[kind]
    right, wrong = read(picture(label, STOCKS[kind]), label.content, taken, SHOTS)
    assert right >= SHOTS - (taken is CONDITIONS[-1])
    assert wrong == 0


def test_a_label_too_far_away_is_not_read_and_never_misread() -> None:
    far = Condition(name="very far", wide=80)
    label = KINDS["bin"]
    assert read(picture(label, STOCKS["bin"]), label.content, far, SHOTS) == (0, 0)


def test_the_same_seed_gives_the_same_photograph() -> None:
    shown = picture(KINDS["bin"], STOCKS["bin"])
    one, other = (photograph(shown, CONDITIONS[-1], 7).tobytes() for _ in range(2))
    assert one == other
    assert photograph(shown, CONDITIONS[-1], 8).tobytes() != one
