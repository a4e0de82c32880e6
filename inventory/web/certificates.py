"""A certificate authority of one's own, so that phones speak to this computer under https."""

from __future__ import annotations

import os
from hashlib import sha256
from typing import TYPE_CHECKING

from inventory.core.errors import StoreError
from inventory.core.frozen import frozen

if TYPE_CHECKING:
    from pathlib import Path

    from trustme import CA

_KEY = "authority-key.pem"
AUTHORITY = "kitwright-authority.pem"


@frozen
class Certificates:
    """Files that the server shows, and the authority that a phone is asked to trust."""

    server: Path
    """Key and chain, for its owner only."""
    authority: Path
    fingerprint: str
    """SHA-256 of the authority's certificate, to be compared on the phone."""


def certificates(folder: Path, hosts: list[str]) -> Certificates:
    """Return a certificate for these names; the authority is made once and kept.

    The key never leaves the folder. Who has it can pretend to be any site to a device that trusts
    it: so it is trusted for nothing else, and taken off the phone when the kit is built.
    """
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        authority = _authority(folder)
        server = folder / "server.pem"
        issued = authority.issue_cert(*hosts)
        chain = b"".join(each.bytes() for each in issued.cert_chain_pems)
        _write(server, issued.private_key_pem.bytes() + chain)
    except OSError as error:
        raise StoreError(
            f"the certificate can't be kept: {error.strerror}",
            where=str(folder),
            remedy="Name another folder with --certificates.",
        ) from error
    pem = folder / AUTHORITY
    return Certificates(server, pem, _fingerprint(authority.cert_pem.bytes()))


def _authority(folder: Path) -> CA:
    from trustme import CA  # noqa: PLC0415

    key, certificate = folder / _KEY, folder / AUTHORITY
    if key.is_file() and certificate.is_file():
        return CA.from_pem(certificate.read_bytes(), key.read_bytes())
    made = CA(organization_name="Kitwright of this computer", organization_unit_name="Workshop")
    _write(key, made.private_key_pem.bytes())
    _write(certificate, made.cert_pem.bytes())
    return made


def _write(path: Path, content: bytes) -> None:
    """Write a file that its owner alone can read."""
    path.unlink(missing_ok=True)
    handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    with os.fdopen(handle, "wb") as file:
        file.write(content)


def _fingerprint(pem: bytes) -> str:
    from ssl import PEM_cert_to_DER_cert  # noqa: PLC0415

    digest = sha256(PEM_cert_to_DER_cert(pem.decode())).hexdigest().upper()
    return ":".join(digest[place : place + 2] for place in range(0, len(digest), 2))
