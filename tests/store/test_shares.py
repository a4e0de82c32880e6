"""Network shares are known by the mount that a path lies on."""

from __future__ import annotations

from pathlib import Path

import pytest

from inventory.store.opening import shares
from inventory.store.opening.shares import share_of

MOUNTS = """\
/dev/sda1 / ext4 rw 0 0
tmpfs /run tmpfs rw 0 0
server:/kits /mnt/club\\040share nfs4 rw 0 0
/dev/sdb1 /mnt/club\\040share/stick vfat rw 0 0
//server/x /srv/x cifs rw 0 0
broken
"""


@pytest.mark.parametrize(
    ("path", "kind"),
    [
        ("/kits.kitwright", ""),
        ("/run/kits.kitwright", ""),
        ("/mnt/club share/kits.kitwright", "nfs4"),
        ("/mnt/club share/deep/er/kits.kitwright", "nfs4"),
        ("/mnt/club share/stick/kits.kitwright", ""),  # a local disk mounted inside
        ("/mnt/club sharepoint/kits.kitwright", ""),
        ("/srv/x/kits.kitwright", "cifs"),
        ("//server/share/kits.kitwright", "network path"),
        ("\\\\server\\share\\kits.kitwright", "network path"),
    ],
)
def test_a_share_is_known_by_its_mount(
    path: str, kind: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "mounts").write_text(MOUNTS)
    monkeypatch.setattr(shares, "MOUNTS", tmp_path / "mounts")
    assert share_of(Path(path)) == kind


def test_a_system_without_a_list_of_mounts_says_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(shares, "MOUNTS", tmp_path / "missing")
    assert share_of(tmp_path) == ""
