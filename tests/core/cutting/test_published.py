"""Published instances: every one is solved to its known optimum, and proved."""

from __future__ import annotations

import os
import tomllib
from pathlib import Path
from typing import Any

import pytest

from inventory.core.cutting.job import CutJob, CutPiece, CutStock
from inventory.core.cutting.plan import cut_plan
from inventory.core.planning.workshop import Saw
from tests.core.cut_check import faults

INSTANCES = tomllib.loads(
    (Path(__file__).parents[2] / "cases" / "cutting_published.toml").read_text("utf-8")
)["instance"]


SLOW = {"Waescher_TEST0055A", "Schwerin2_BPP14", "Hard28_BPP900"}
"""Solved and proved too, in some seconds each: only where everything is to be run."""


@pytest.mark.parametrize("instance", INSTANCES, ids=lambda each: str(each["name"]))
def test_published_optimum_is_reached_and_proved(instance: dict[str, Any]) -> None:
    if instance["name"] in SLOW and "KITWRIGHT_ALL" not in os.environ:
        pytest.skip("takes long: set KITWRIGHT_ALL=1 to run it")
    pieces = (text.split("x") for text in instance["pieces"].split())
    job = CutJob(
        pieces=tuple(CutPiece(int(length), int(count)) for length, count in pieces),
        stock=(CutStock(length=instance["stock"], price=1),),
        saw=Saw(0, 0),
    )
    plan = cut_plan(job, seconds=60)

    assert faults(job, plan) == []
    assert (plan.cost, plan.bound) == (instance["optimum"], instance["optimum"])
