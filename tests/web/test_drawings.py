from __future__ import annotations

import xml.etree.ElementTree as ET
from datetime import date
from time import perf_counter
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.core.items import Hand
from inventory.core.planning.plan import Step
from inventory.core.planning.ready import Readiness, StepReady
from inventory.core.planning.workshop import Due
from inventory.documents.bin_map import Lying, MappedBin
from inventory.jobs.receiving.receiving import CrateState
from inventory.web.drawings.bin_map import bin_map_svg
from inventory.web.drawings.marks import WIDE_CHARACTER, number, short_words
from inventory.web.drawings.plan import plan_svg
from inventory.web.drawings.plan_layout import plan_layout
from inventory.web.drawings.receipt import receipt_svg
from inventory.web.drawings.short import forecast_svg, ranking_svg
from inventory.web.drawings.standalone import standalone
from inventory.web.short_parts import ShortPart

SVG = "{http://www.w3.org/2000/svg}"


def parsed(svg: str) -> ET.Element:
    return ET.fromstring(svg)  # noqa: S314 - of our own making


def said(svg: str) -> list[str]:
    return [each.text or "" for each in parsed(svg).iter(f"{SVG}text")]


def steps(count: int, **more: Any) -> list[Step]:  # noqa: ANN401
    """Return a plan of lanes in which every step waits for the one before and the lane before."""
    made = []
    for place in range(count):
        after = [f"S-{place - 1:03}"] if place % 10 else []
        after += [f"S-{place - 10:03}"] if place >= 10 and place % 3 == 0 else []
        made.append(
            Step(
                code=f"S-{place:03}",
                title=f"Step {place} of the floats",
                section=f"Section {place // 50}",
                after=tuple(after),
                **more,
            )
        )
    return made


def all_ready(plan: list[Step]) -> list[StepReady]:
    states = list(Readiness)
    return [
        StepReady(step=each, readiness=states[place % len(states)])
        for place, each in enumerate(plan)
    ]


def test_each_step_stands_right_of_all_that_come_before_it() -> None:
    plan = steps(500)
    layout = plan_layout(plan)
    for step in plan:
        assert all(layout.columns[code] < layout.columns[step.code] for code in step.after)


def test_no_two_steps_share_a_spot_and_lanes_dont_mix() -> None:
    plan = steps(500)
    layout = plan_layout(plan)
    spots = {(layout.columns[step.code], layout.rows[step.code]) for step in plan}
    assert len(spots) == 500
    for lane in layout.lanes:
        rows = {layout.rows[step.code] for step in plan if step.section == lane.section}
        assert rows <= set(range(lane.top, lane.top + lane.rows))
    assert sum(lane.rows for lane in layout.lanes) == layout.height


def test_join_that_others_show_already_is_left_out() -> None:
    plan = [
        Step(code="A"),
        Step(code="B", after=("A",)),
        Step(code="C", after=("A", "B", "GONE")),
    ]
    assert plan_layout(plan).joins == (("A", "B"), ("B", "C"))


def test_five_hundred_steps_are_drawn_whole_and_at_once() -> None:
    ready = all_ready(steps(500))
    start = perf_counter()
    svg = plan_svg("T2", ready, 1.0)
    assert perf_counter() - start < 1.0
    words = said(svg)
    assert {f"S-{place:03}" for place in range(500)} <= set(words)
    assert len(svg) < 700_000


def test_steps_overlap_nowhere_at_real_size() -> None:
    root = parsed(plan_svg("T2", all_ready(steps(120)), 1.0))
    boxes = [
        tuple(float(box.attrib[name]) for name in ("x", "y", "width", "height"))
        for box in root.iter(f"{SVG}rect")
    ]
    clash = [
        (one, other)
        for place, one in enumerate(boxes)
        for other in boxes[:place]
        if abs(one[0] - other[0]) < one[2] and abs(one[1] - other[1]) < one[3]
    ]
    assert clash == []
    assert float(root.attrib["height"]) >= max(box[1] + box[3] for box in boxes)


def test_every_state_has_a_shape_and_a_word_of_its_own() -> None:
    ready = [
        StepReady(step=Step(code=each.name), readiness=each, started=True) for each in Readiness
    ]
    root = parsed(plan_svg("T2", ready))
    shapes = {
        "".join(path.attrib["d"] + path.attrib["class"] for path in group.iter(f"{SVG}path"))
        for group in root.iter(f"{SVG}g")
    }
    assert len(shapes) == len(Readiness)
    states = {text for text in said(plan_svg("T2", ready)) if text.endswith("begun")}
    assert len(states) == len(Readiness) - 1


def test_steps_lead_to_their_pages() -> None:
    root = parsed(plan_svg("T2", all_ready([Step(code="10 / 02")])))
    assert [each.attrib["href"] for each in root.iter(f"{SVG}a")] == ["/T2/step?code=10%20%2F%2002"]


def test_empty_plan_draws_nothing() -> None:
    assert said(plan_svg("T2", [])) == []


@given(st.text(max_size=60))
def test_any_words_make_a_drawing_that_can_be_read(words: str) -> None:
    step = Step(code=words or "-", title=words, section=words)
    parsed(plan_svg("T2", [StepReady(step=step, readiness=Readiness.READY)]))
    parsed(bin_map_svg("T2", [MappedBin(shelf=words, name=words, contents=())]))


@given(st.text("ABC-0123456789", min_size=1, max_size=80))
def test_part_number_is_never_cut(part: str) -> None:
    bins = [MappedBin(name="A", contents=(Lying(part=part, quantity="1"),))]
    assert part in said(bin_map_svg("T2", bins))
    assert part in said(ranking_svg("T2", [short_part(part)]))


def test_long_number_is_drawn_narrower() -> None:
    assert "textLength" not in number(0, 0, "A" * 10, 10 * WIDE_CHARACTER)
    assert 'textLength="80"' in number(0, 0, "A" * 10, 80)


def test_words_are_shortened_in_the_middle() -> None:
    assert short_words("rivet the nose ribs", 9 * 10, 9) == "rive… ribs"
    assert short_words("short", 90, 9) == "short"


def crate(name: str, counted: int, lines: int, twice: int = 0) -> CrateState:
    return CrateState(name, "opened", lines, counted, twice, ())


def test_crate_bar_is_as_full_as_it_is_counted() -> None:
    root = parsed(receipt_svg([crate("1 OF 2", 5, 20, 2), crate("2 OF 2", 0, 0)]))
    full = [float(box.attrib["width"]) for box in root.iter(f"{SVG}rect")
            if box.attrib["class"] == "full"]  # fmt: skip
    assert full == [90.0]
    assert "5 of 20, opened" in said(receipt_svg([crate("1 OF 2", 5, 20)]))


def short_part(part: str, **more: Any) -> ShortPart:  # noqa: ANN401
    fields: dict[str, Any] = {
        "part": part, "printed": part, "description": "", "hand": Hand.NONE, "short": "2",
        "steps": ("10-01",), "due": (), "covered_on": None,
    }  # fmt: skip
    return ShortPart(**{**fields, **more})


def test_part_that_stops_most_steps_has_the_longest_bar() -> None:
    parts = [short_part("A", steps=("1", "2", "3")), short_part("B", hand=Hand.LEFT)]
    root = parsed(ranking_svg("T2", parts))
    assert [float(box.attrib["width"]) for box in root.iter(f"{SVG}rect")] == [360.0, 120.0]
    assert "B LEFT" in said(ranking_svg("T2", parts))


def test_promises_stand_on_their_days_and_undated_ones_apart() -> None:
    early, late = date(2026, 12, 1), date(2026, 12, 11)
    parts = [
        short_part("A", due=(Due(part="A", quantity=2, source="x", promised=early, latest=late),)),
        short_part("B", due=(Due(part="B", quantity=2, source="y"),)),
    ]
    svg = forecast_svg(parts, date(2026, 11, 25))
    assert "2026-12-11, 1 step" in said(svg)
    assert "1 short part without a promised day" in said(svg)
    ranges = [each for each in parsed(svg).iter(f"{SVG}rect") if each.attrib["class"] == "part"]
    # 16 days from today to the late end fill 360 units; the promise spans the last 10 of them
    assert [float(each.attrib["width"]) for each in ranges] == [pytest.approx(225.0)]


def test_forecast_of_nothing_shows_today() -> None:
    assert "today 2026-11-25" in said(forecast_svg([], date(2026, 11, 25)))


def test_full_bin_says_how_much_more_lies_there() -> None:
    contents = tuple(Lying(part=f"P{place}", quantity="1") for place in range(5))
    words = said(bin_map_svg("T2", [MappedBin(shelf="wall", name="B-2", contents=contents)]))
    assert "and 2 more" in words
    assert "wall" in words


def test_bins_stand_in_the_order_of_the_shelf() -> None:
    bins = [MappedBin(name=name) for name in ("B-10", "B-2", "B-1")]
    names = [word for word in said(bin_map_svg("T2", bins)) if word.startswith("B-")]
    assert names == ["B-1", "B-2", "B-10"]


def test_drawing_alone_brings_its_style_and_ground() -> None:
    svg = standalone(plan_svg("T2", [], 1.0))
    assert svg.index("<title>") < svg.index("<style>") < svg.index('fill="#fff"')
    parsed(svg)
