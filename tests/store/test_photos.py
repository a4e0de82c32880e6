from __future__ import annotations

import os
import struct
import zlib
from io import BytesIO
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from inventory.core.errors import InventoryError, NotFoundError, StoreError
from inventory.store.receiving.photos import keep_photo, read_photo
from inventory.store.receiving.pictures import LONGEST_SIDE, MOST_BYTES, clean_picture

if TYPE_CHECKING:
    from pathlib import Path

ORIENTATION, MAKER, GPS = 274, 271, 0x8825


def picture(kind: str = "JPEG", mode: str = "RGB", size: tuple[int, int] = (40, 30)) -> bytes:
    """Return a picture, red but for a blue upper left quarter, full of metadata."""
    image = Image.new("RGB", size, "red")
    image.paste("blue", (0, 0, size[0] // 2, size[1] // 2))
    exif = Image.Exif()
    exif[MAKER] = "A camera"
    exif.get_ifd(GPS)[1] = "N"
    file = BytesIO()
    image = image.convert(mode)
    if mode == "RGBA":
        image.putalpha(128)
    image.save(file, kind, exif=exif)
    return file.getvalue()


def png_that_claims(width: int, height: int) -> bytes:
    """Return a small PNG whose head names a huge size."""

    def chunk(name: bytes, content: bytes) -> bytes:
        body = name + content
        return struct.pack(">I", len(content)) + body + struct.pack(">I", zlib.crc32(body))

    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    pixels = zlib.compress(b"\0" * 1000)
    parts = (chunk(b"IHDR", head), chunk(b"IDAT", pixels), chunk(b"IEND", b""))
    return b"\x89PNG\r\n\x1a\n" + b"".join(parts)


def webp_that_claims(side: int) -> bytes:
    """Return a small WebP whose canvas (VP8X, bytes 24 to 29) is named huge."""
    raw = bytearray(picture("WEBP"))
    assert raw[12:16] == b"VP8X"
    raw[24:30] = (side - 1).to_bytes(3, "little") * 2
    return bytes(raw)


def names(folder: Path) -> list[str]:
    return [path.name for path in folder.iterdir()]


def opened(content: bytes) -> Image.Image:
    return Image.open(BytesIO(content))


@pytest.mark.parametrize(
    ("kind", "mode", "kept"),
    [
        ("JPEG", "RGB", "jpg"),
        ("JPEG", "L", "jpg"),
        ("JPEG", "CMYK", "jpg"),
        ("PNG", "RGB", "png"),
        ("PNG", "RGBA", "png"),
        ("PNG", "P", "png"),
        ("PNG", "1", "png"),
        ("WEBP", "RGB", "jpg"),
        ("WEBP", "RGBA", "png"),
    ],
)
def test_picture_is_kept_under_its_hash_without_metadata(
    kind: str, mode: str, kept: str, tmp_path: Path
) -> None:
    photo = keep_photo(tmp_path / "photos", picture(kind, mode), "crate 2.jpg")
    assert (photo.kind, photo.width, photo.height) == (kept, 40, 30)
    assert names(tmp_path / "photos") == [f"{photo.sha256}.{kept}"]
    content = read_photo(tmp_path / "photos", photo.sha256, photo.kind)
    assert opened(content).getexif() == {}
    assert b"A camera" not in content


def test_picture_is_turned_upright() -> None:
    exif = Image.Exif()
    exif[ORIENTATION] = 6  # turn a quarter clockwise to see it
    image = Image.new("RGB", (40, 30), "red")
    file = BytesIO()
    image.save(file, "JPEG", exif=exif)
    clean = clean_picture(file.getvalue(), "a.jpg")
    assert (clean.width, clean.height) == (30, 40)
    assert opened(clean.content).size == (30, 40)


def test_pixels_stay_what_they_are() -> None:
    clean = opened(clean_picture(picture("PNG"), "a.png").content)
    assert (clean.getpixel((0, 0)), clean.getpixel((39, 29))) == ((0, 0, 255), (255, 0, 0))


def test_large_picture_is_made_smaller() -> None:
    clean = clean_picture(picture(size=(LONGEST_SIDE + 200, 100)), "wide.jpg")
    assert clean.width <= LONGEST_SIDE
    assert clean.height < 100


def test_same_picture_again_is_kept_once(tmp_path: Path) -> None:
    first = keep_photo(tmp_path, picture(), "a.jpg")
    written = (tmp_path / first.file_name).stat().st_mtime_ns
    assert keep_photo(tmp_path, picture(), "b.jpg").sha256 == first.sha256
    assert (tmp_path / first.file_name).stat().st_mtime_ns == written
    assert len(names(tmp_path)) == 1


def test_harmed_file_is_written_anew(tmp_path: Path) -> None:
    first = keep_photo(tmp_path, picture(), "a.jpg")
    (tmp_path / first.file_name).write_bytes(b"")
    keep_photo(tmp_path, picture(), "a.jpg")
    assert read_photo(tmp_path, first.sha256, "jpg")


@pytest.mark.skipif(os.name == "nt", reason="Windows keeps no such bits")
def test_photos_are_their_owners_only(tmp_path: Path) -> None:
    photo = keep_photo(tmp_path / "photos", picture(), "a.jpg")
    assert (tmp_path / "photos").stat().st_mode & 0o077 == 0
    assert (tmp_path / "photos" / photo.file_name).stat().st_mode & 0o077 == 0


@pytest.mark.parametrize(
    ("raw", "why"),
    [
        (b"", "the picture is empty"),
        (b"\0" * (MOST_BYTES + 1), "12.0 MB; the most is 12 MB"),
        (b"<svg xmlns='http://www.w3.org/2000/svg'/>", "no JPEG, PNG or WebP"),
        (b"GIF89a" + b"\0" * 40, "no JPEG, PNG or WebP"),
        (b"\0\0\0\x18ftypheic" + b"\0" * 40, "no JPEG, PNG or WebP"),
        (b"%PDF-1.7", "no JPEG, PNG or WebP"),
        (png_that_claims(20_000, 20_000), "more than 50 million pixels"),
        (png_that_claims(8_000, 8_000), "more than 50 million pixels"),
        (webp_that_claims(16_000), "more than 50 million pixels"),
        (png_that_claims(40, 30), "the PNG picture is damaged or cut off"),
        (picture()[:400], "the JPEG picture is damaged or cut off"),
        (picture("PNG")[:-30], "the PNG picture is damaged or cut off"),
        (picture("WEBP")[:60], "the WebP picture is damaged or cut off"),
        (b"\xff\xd8\xff" + picture("PNG"), "the JPEG picture is damaged or cut off"),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_what_is_no_sound_picture_is_refused_and_leaves_nothing(
    raw: bytes, why: str, tmp_path: Path
) -> None:
    with pytest.raises(InventoryError, match=why) as refused:
        keep_photo(tmp_path / "photos", raw, "a.jpg")
    assert refused.value.remedy
    assert not (tmp_path / "photos").exists()


@pytest.mark.parametrize(
    "name", ["../../x.jpg", "/etc/x.jpg", "a\\..\\b.jpg", "C:\\x.jpg", "x\0.jpg"]
)
def test_name_that_holds_a_path_is_refused(name: str, tmp_path: Path) -> None:
    with pytest.raises(InventoryError, match="must not hold a path"):
        keep_photo(tmp_path / "photos", picture(), name)
    assert not (tmp_path / "photos").exists()


@pytest.mark.parametrize(
    ("name", "label"),
    [
        ("CON.jpg", "CON.jpg"),
        ("x.jpg:stream", "x.jpg:stream"),
        ("photo\u202egpj.exe", "photo<U+202E>gpj.exe"),
        ("\x1b[2Ja.jpg", "<U+001B>[2Ja.jpg"),
        ("ö" * 400, "ö" * 199 + "…"),
        ("", ""),
    ],
)
def test_name_is_a_label_only(name: str, label: str, tmp_path: Path) -> None:
    photo = keep_photo(tmp_path, picture(), name)
    assert photo.name == label
    assert names(tmp_path) == [photo.file_name]


@pytest.mark.parametrize(
    ("digest", "kind"), [("../x", "jpg"), ("0" * 64, "exe"), ("A" * 64, "jpg"), ("", "png")]
)
def test_name_that_is_no_hash_opens_nothing(digest: str, kind: str, tmp_path: Path) -> None:
    with pytest.raises(NotFoundError, match="no photograph is kept"):
        read_photo(tmp_path, digest, kind)


def test_missing_photo_is_named(tmp_path: Path) -> None:
    with pytest.raises(NotFoundError, match="missing from its folder"):
        read_photo(tmp_path, "0" * 64, "jpg")


def test_link_in_the_folder_is_not_followed(tmp_path: Path) -> None:
    secret = tmp_path / "secret"
    secret.write_bytes(b"not yours")
    photo = keep_photo(tmp_path / "photos", picture(), "a.jpg")
    path = tmp_path / "photos" / photo.file_name
    path.unlink()
    path.symlink_to(secret)
    with pytest.raises(NotFoundError, match="missing"):
        read_photo(tmp_path / "photos", photo.sha256, "jpg")
    keep_photo(tmp_path / "photos", picture(), "a.jpg")
    assert not path.is_symlink()
    assert secret.read_bytes() == b"not yours"


def test_changed_photo_is_noticed(tmp_path: Path) -> None:
    photo = keep_photo(tmp_path, picture(), "a.jpg")
    (tmp_path / photo.file_name).write_bytes(picture())
    with pytest.raises(StoreError, match="was changed"):
        read_photo(tmp_path, photo.sha256, "jpg")


def test_folder_that_can_not_be_made_is_one_clear_sentence(tmp_path: Path) -> None:
    (tmp_path / "photos").write_bytes(b"a file")
    with pytest.raises(StoreError, match="could not be kept"):
        keep_photo(tmp_path / "photos", picture(), "a.jpg")


def test_disk_that_fails_leaves_no_half_photo(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(_handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(StoreError, match="No space left on device"):
        keep_photo(tmp_path, picture(), "a.jpg")
    assert names(tmp_path) == []


@settings(max_examples=150, deadline=None)
@given(
    st.sampled_from([picture(), picture("PNG"), picture("WEBP"), picture("PNG", "P")]),
    st.lists(st.tuples(st.integers(0, 10**6), st.integers(0, 255)), min_size=1, max_size=8),
)
def test_any_bytes_are_a_picture_or_refused(raw: bytes, changes: list[tuple[int, int]]) -> None:
    mangled = bytearray(raw)
    for place, value in changes:
        mangled[place % len(mangled)] = value
    try:
        clean = clean_picture(bytes(mangled), "a")
    except InventoryError as refused:
        if not refused.remedy:
            raise
    else:
        assert opened(clean.content).size == (clean.width, clean.height)
