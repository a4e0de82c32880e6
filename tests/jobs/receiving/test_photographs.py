from __future__ import annotations

from io import BytesIO
from typing import TYPE_CHECKING

import pytest
from PIL import Image

from inventory.core.errors import InventoryError, NotFoundError
from inventory.core.receiving.delivery import DeliveryFacts
from inventory.jobs.receiving.deliveries import record_delivery
from inventory.jobs.receiving.photographs import (
    PhotoOf,
    photograph,
    photographs,
    picture,
    read_file,
)
from inventory.store.receiving.photo_records import photo_folder
from inventory.store.receiving.pictures import MOST_BYTES

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench

    Slips = Callable[..., Slip]


def jpeg(colour: str = "red") -> bytes:
    file = BytesIO()
    Image.new("RGB", (40, 30), colour).save(file, "JPEG")
    return file.getvalue()


def test_photo_is_kept_by_its_hash_and_told_of_its_crate(bench: Bench, slip: Slips) -> None:
    record_delivery(bench, lambda _: DeliveryFacts(), slip())
    of = PhotoOf(caption="lid", delivery=1, crate="2", part="SPAR")
    (kept,) = photograph(bench, [("IMG 1.JPG", jpeg())], of, slip())
    (told,) = photographs(bench)
    assert (told.kept, told.of.crate, told.of.part) == (kept, "2 OF 2", "SPAR")
    assert picture(bench, kept.sha256, kept.kind).startswith(b"\xff\xd8\xff")


@pytest.mark.parametrize(
    ("name", "raw", "why"),
    [
        ("list.jpg", b"PK\x03\x04 no picture", "no JPEG, PNG or WebP"),
        ("half.jpg", jpeg()[:200], "damaged or cut off"),
        ("../../etc/x.jpg", jpeg(), "must not hold a path"),
        ("a\\b.jpg", jpeg(), "must not hold a path"),
        ("empty.jpg", b"", "the picture is empty"),
    ],
)
def test_what_is_no_picture_is_refused_and_nothing_recorded(
    bench: Bench, slip: Slips, name: str, raw: bytes, why: str
) -> None:
    with pytest.raises(InventoryError, match=why):
        photograph(bench, [(name, raw)], PhotoOf(), slip())
    assert photographs(bench) == []
    assert not photo_folder(bench.store.address).exists()


def test_picture_bomb_is_refused(bench: Bench, slip: Slips) -> None:
    file = BytesIO()
    Image.new("1", (60_000, 1_000)).save(file, "PNG")  # 60 million pixels in some kilobytes
    assert len(file.getvalue()) < 100_000
    with pytest.raises(InventoryError, match="million pixels"):
        photograph(bench, [("bomb.png", file.getvalue())], PhotoOf(), slip())


def test_photo_of_an_unknown_crate_part_or_delivery_is_refused(bench: Bench, slip: Slips) -> None:
    for of in (PhotoOf(crate="9"), PhotoOf(part="NO-SUCH"), PhotoOf(delivery=4)):
        with pytest.raises(InventoryError):
            photograph(bench, [("a.jpg", jpeg())], of, slip())
    assert photographs(bench) == []


def test_photo_that_is_missing_from_its_folder_is_said(bench: Bench, slip: Slips) -> None:
    (kept,) = photograph(bench, [("a.jpg", jpeg())], PhotoOf(), slip())
    (photo_folder(bench.store.address) / kept.file_name).unlink()
    with pytest.raises(NotFoundError, match="missing from its folder"):
        picture(bench, kept.sha256, kept.kind)


def test_only_a_plain_file_of_sensible_size_is_read(tmp_path: Path) -> None:
    (tmp_path / "lid.jpg").write_bytes(jpeg())
    assert read_file(tmp_path / "lid.jpg")[0] == "lid.jpg"
    with pytest.raises(InventoryError, match="this is no file"):
        read_file(tmp_path)
    with pytest.raises(InventoryError, match="can't be read"):
        read_file(tmp_path / "none.jpg")
    with (tmp_path / "large.jpg").open("wb") as file:
        file.truncate(MOST_BYTES + 1)
    with pytest.raises(InventoryError, match="over 12 MB"):
        read_file(tmp_path / "large.jpg")
