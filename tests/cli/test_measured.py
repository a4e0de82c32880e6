"""What is not counted in pieces is typed and shown with its unit in every command."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from inventory.cli.exits import Exit
from tests.cli.test_plans import sheet

if TYPE_CHECKING:
    from tests.cli.conftest import Typist

STEPS: list[tuple[str | int | None, ...]] = [("Step", "Title"), ("10-01", "Seal the tank")]
NEEDS: list[tuple[str | int | None, ...]] = [
    ("Step", "Part number", "Quantity", "Unit", "Description"),
    ("10-01", "T2-SEAL", 150, "ml", "sealant"),
]


@pytest.fixture
def sealing(typed: Typist) -> Typist:
    """Return a typist at a kit of which a step takes 150 ml of a sealant."""
    typed("kit", "new", "Tarn T2")
    typed("plan", "read", sheet(typed.folder, "plan.xlsx", STEPS, NEEDS))
    typed("bin", "add", "B", "C")
    return typed


def out(sealing: Typist, *words: str) -> str:
    told = sealing(*words)
    assert told.code == Exit.DONE, told.err
    return "\n".join(" ".join(line.split()) for line in told.out.splitlines())


def refused(sealing: Typist, *words: str) -> str:
    told = sealing(*words)
    assert told.code == Exit.REFUSED, told.out
    return told.err


def test_a_sealant_is_put_away_issued_and_taken_back_by_volume(sealing: Typist) -> None:
    put = out(sealing, "bin", "put", "T2-SEAL", "1l", "--from", "bought", "--to", "B", "--lot", "7")
    assert put == "1000 ml x T2-SEAL lot 7: bought -> bin B"
    assert "bin B lot 7 1000 ml" in out(sealing, "where", "T2-SEAL")
    assert "B T2-SEAL lot 7 1000 ml" in out(sealing, "bin", "show", "B")
    issued = out(sealing, "issue", "T2-SEAL", "100ml", "--step", "10-01")
    assert issued == "100 ml x T2-SEAL lot 7: bin B -> step 10-01"
    back = out(sealing, "take-back", "T2-SEAL", "10 ml", "--step", "10-01", "--to", "C")
    assert back == "10 ml x T2-SEAL lot 7: step 10-01 -> bin C"
    assert "issue 100 ml x T2-SEAL lot 7: bin B ->" in out(sealing, "history")
    undone = out(sealing, "undo").splitlines()[1]
    assert undone == "10 ml x T2-SEAL lot 7: bin C -> step 10-01"
    assert "900 ml T2-SEAL lot 7 bin B" in out(sealing, "lot", "trace", "7")
    recounted = out(sealing, "bin", "recount", "B", "T2-SEAL", "850ml")
    assert recounted.startswith("50 ml x T2-SEAL lot 7: bin B -> ")
    words = ("T2-SEAL", "50ml", "--from", "B", "--why", "cured in the can")
    assert "50 ml x T2-SEAL lot 7: bin B -> scrap" in out(sealing, "scrap", *words)


def test_a_lot_that_is_held_and_sent_back_is_told_by_volume(sealing: Typist) -> None:
    out(sealing, "bin", "put", "T2-SEAL", "1l", "--from", "bought", "--to", "B", "--lot", "7")
    out(sealing, "lot", "record", "T2-SEAL", "7", "--expires", "2099-01-31")
    assert "1000 ml in" in out(sealing, "lot", "show")
    words = ("hold", "T2-SEAL", "200ml", "--from", "B", "--why", "lumps")
    assert out(sealing, *words) == "200 ml x T2-SEAL lot 7: bin B -> hold HOLD"
    assert out(sealing, "release", "T2-SEAL", "100ml", "--to", "B", "--why", "Ana: use").startswith(
        "100 ml"
    )
    assert out(sealing, "send-back", "T2-SEAL", "100ml", "--to", "Heron").startswith("100 ml")
    assert "100 ml x T2-SEAL Heron" in out(sealing, "send-back")
    assert "held back: 900 ml x" in out(sealing, "lot", "hold", "7", "--why", "bulletin 2")


def test_what_is_kept_ordered_and_asked_is_told_by_volume(sealing: Typist) -> None:
    out(sealing, "bin", "put", "T2-SEAL", "60ml", "--from", "bought", "--to", "B")
    kept = out(sealing, "set-aside", "T2-SEAL", "50ml", "--step", "10-01")
    assert kept == "50 ml x T2-SEAL are set aside for step 10-01"
    assert "10-01 T2-SEAL 50 ml" in out(sealing, "set-aside")
    placed = out(sealing, "to-order", "place", "T2-SEAL", "1l", "--from", "Heron")
    assert placed == "order 1: 1000 ml x T2-SEAL"
    came = out(sealing, "to-order", "came", "1", "400ml", "--to", "C").splitlines()
    assert came[1] == "order 1: 600 ml still to come"
    assert "600 ml of 1000 ml T2-SEAL" in out(sealing, "to-order", "placed")
    minimum = out(sealing, "to-order", "minimum", "T2-SEAL", "20ml")
    assert minimum == "T2-SEAL: 20 ml should be left"
    assert "T2-SEAL 20 ml" in out(sealing, "to-order", "minimum")
    ahead = out(sealing, "what-if", "T2-SEAL", "--used", "400ml").splitlines()
    assert (ahead[0], ahead[3]) == (
        "if 400 ml x T2-SEAL are used:",
        "10-01 T2-SEAL 0 ml 90 ml sealant",
    )


def test_why_it_is_short_is_told_by_volume(sealing: Typist) -> None:
    out(sealing, "bin", "put", "T2-SEAL", "60ml", "--from", "bought", "--to", "B")
    why = " ".join(out(sealing, "short", "10-01", "--why").split())
    assert "short 90 ml = 150 ml needed - 60 ml left over for it" in why
    assert "60 ml x T2-SEAL: bought -> bin B" in why


def test_refusals_name_amounts_with_their_units(sealing: Typist) -> None:
    out(sealing, "bin", "put", "T2-SEAL", "1l", "--from", "bought", "--to", "B")
    unit = refused(sealing, "issue", "T2-SEAL", "150", "--step", "10-01")
    assert "the part is counted by volume" in unit
    over = refused(sealing, "issue", "T2-SEAL", "200ml", "--step", "10-01")
    assert "needs 150 ml of T2-SEAL, 0 ml are issued: 200 ml more" in over
    less = refused(sealing, "bin", "put", "T2-SEAL", "2l", "--from", "B", "--to", "C")
    assert "2000 ml of T2-SEAL asked for, 1000 ml in bin B" in less
    aside = refused(sealing, "set-aside", "T2-SEAL", "1500ml", "--step", "10-01")
    assert "needs 150 ml of T2-SEAL" in aside
    ahead = refused(sealing, "what-if", "T2-SEAL", "--used", "3l")
    assert "1000 ml of T2-SEAL without a hand lie in the bins" in ahead
    out(sealing, "to-order", "place", "T2-SEAL", "1l")
    came = refused(sealing, "to-order", "came", "1", "2l", "--to", "B")
    assert "2000 ml came, 1000 ml of order 1 are still to come" in came


def test_papers_tell_what_is_measured_with_its_unit(sealing: Typist) -> None:
    out(sealing, "bin", "put", "T2-SEAL", "1l", "--from", "bought", "--to", "B", "--lot", "7")
    paper = sealing.folder / "stock.csv"
    out(sealing, "bin", "show", "--stock", "-o", str(paper))
    assert "T2-SEAL,,sealant,7,,bin B,1000,ml," in paper.read_text("utf-8")
    bins = sealing.folder / "bins.csv"
    out(sealing, "bin", "show", "-o", str(bins))
    assert "1000 ml" in bins.read_text("utf-8")
    assert "lot 7 · sealant" in bins.read_text("utf-8")
    sheet = sealing.folder / "step.csv"
    out(sealing, "plan", "show", "10-01", "-o", str(sheet))
    assert "B: 150 ml" in sheet.read_text("utf-8")
