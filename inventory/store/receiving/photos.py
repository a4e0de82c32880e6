"""Photographs kept beside the store: re-encoded, without metadata, named by their own hash."""

from __future__ import annotations

import os
import re
import tempfile
from contextlib import suppress
from hashlib import sha256
from pathlib import Path

from inventory.core.errors import InventoryError, NotFoundError, StoreError
from inventory.core.frozen import frozen
from inventory.store.receiving.pictures import clean_picture

_LONGEST_NAME = 200
_SHA256 = re.compile(r"[0-9a-f]{64}")


@frozen
class KeptPhoto:
    """One photograph in the folder."""

    sha256: str
    """Of the bytes kept, not of those sent."""
    kind: str
    """jpg or png."""
    width: int
    height: int
    name: str
    """What the sender called it: a label only, never a path."""

    @property
    def file_name(self) -> str:
        """The file's name in the folder."""
        return f"{self.sha256}.{self.kind}"


def keep_photo(folder: Path, raw: bytes, name: str) -> KeptPhoto:
    """Keep a picture and return what is kept; the same picture again is kept once.

    The pixels alone are written anew, turned upright, so that no place, time or camera stays in
    the file. Refused: more than 12 MB or 50 million pixels, damaged, no picture, a name with a
    path in it.
    """
    label = _label(name)
    clean = clean_picture(raw, label)
    digest = sha256(clean.content).hexdigest()
    kept = KeptPhoto(digest, clean.kind, clean.width, clean.height, label)
    _write_once(folder, kept.file_name, clean.content)
    return kept


def read_photo(folder: Path, digest: str, kind: str) -> bytes:
    """Return the bytes of a kept photograph; refuse one that is missing or was changed."""
    if _SHA256.fullmatch(digest) is None or kind not in {"jpg", "png"}:
        raise NotFoundError("no photograph is kept under this name", where=digest[:80])
    path = folder / f"{digest}.{kind}"
    remedy = "Bring it back from a backup."
    if path.is_symlink() or not path.is_file():
        raise NotFoundError(
            "a photograph is missing from its folder", where=str(path), remedy=remedy
        )
    kept = path.read_bytes()
    if sha256(kept).hexdigest() != digest:
        raise StoreError("a photograph was changed since", where=str(path), remedy=remedy)
    return kept


def _label(name: str) -> str:
    if any(sign in name for sign in "/\\\0"):
        raise InventoryError(
            "a photo's name must not hold a path",
            where=_visible(name)[:_LONGEST_NAME],
            remedy="Send the file under its bare name.",
        )
    shown = _visible(name.strip())
    return shown if len(shown) <= _LONGEST_NAME else shown[: _LONGEST_NAME - 1] + "…"


def _visible(text: str) -> str:
    return "".join(sign if sign.isprintable() else f"<U+{ord(sign):04X}>" for sign in text)


def _write_once(folder: Path, file_name: str, content: bytes) -> None:
    """Write a file whole or not at all, for its owner only."""
    path = folder / file_name
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        if path.is_file() and not path.is_symlink() and path.read_bytes() == content:
            return
        handle, beside = tempfile.mkstemp(dir=folder, prefix=".photo-")
        try:
            with open(handle, "wb") as file:  # noqa: PTH123 - the handle is the owner's only
                file.write(content)
                file.flush()
                os.fsync(file.fileno())
            Path(beside).replace(path)
        except BaseException:
            with suppress(OSError):
                Path(beside).unlink()
            raise
        _sync_folder(folder)
    except OSError as fault:
        raise StoreError(
            f"the photograph could not be kept: {fault.strerror or fault}",
            where=str(folder),
            remedy="Check the free space and who may write there, then send it again.",
        ) from fault


def _sync_folder(folder: Path) -> None:
    with suppress(OSError):  # Windows opens no folders
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
