from __future__ import annotations

from tests.benchmarks.labels import codes, hand_written, linear, linear_labels, main, square
from tests.labels.raster import printed, raster, read_zxing


def test_the_floor_draws_marks_that_can_be_read() -> None:
    page = printed(raster(hand_written(codes(14)), 300))
    assert read_zxing(page) == {("Code 128", text) for text in codes(14)}


def test_the_benchmark_compares_the_same_codes() -> None:
    assert [label.content for label in linear_labels(codes(3))] == codes(3)
    assert len({*codes(20_000)}) == 20_000


def test_linear_labels_stay_small_and_grow_evenly() -> None:
    few = {one.what: one for one in linear(140)}
    assert few["bytes a linear label"].figure < 600  # the typefaces weigh most in so few
    assert few["growth for ten times as many"].figure < 20
    assert square(3)[0].figure < 10
    assert main.__doc__
