"""Which address of this computer others on the same network can reach."""

from __future__ import annotations

import socket
from ipaddress import ip_address

from inventory.core.errors import InventoryError

LOOPBACK = "127.0.0.1"
_ELSEWHERE = ("192.0.2.1", 9)
"""An address nobody has (RFC 5737): connecting by UDP sends nothing, and chooses the way out."""


def lan_address() -> str:
    """Return the address of the network card that leads outward; refused where there is none."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asking:
        try:
            asking.connect(_ELSEWHERE)
            found = str(asking.getsockname()[0])
        except OSError:
            found = LOOPBACK
    if ip_address(found).is_loopback:
        raise InventoryError(
            "this computer is on no network",
            remedy="Join one, or let it make a hotspot; then name its address with --host.",
        )
    return found


def is_loopback(host: str) -> bool:
    """Say whether only this computer itself reaches the address."""
    try:
        return ip_address(host).is_loopback
    except ValueError:
        return host == "localhost"


def one_address(host: str) -> str:
    """Return the address or name; refused where it stands for all of them at once."""
    try:
        everywhere = ip_address(host).is_unspecified
    except ValueError:
        everywhere = False
    if everywhere:
        raise InventoryError(
            f"{host} stands for every network of this computer at once",
            remedy="Name the address of the one network that is meant, or leave --host out.",
        )
    return host
