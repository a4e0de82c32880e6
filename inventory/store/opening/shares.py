"""Whether a store lies on a network share, where locks are not to be relied on.

SQLite's own documentation ("How To Corrupt An SQLite Database File", 2.1) names broken locks of
network file systems as a way to lose a database.
"""

from __future__ import annotations

from pathlib import Path, PurePosixPath

MOUNTS = Path("/proc/self/mounts")
"""Where Linux lists what is mounted; other systems have no such file."""
SHARES = frozenset(
    {
        *("nfs", "nfs4", "cifs", "smb3", "smbfs", "9p", "afs", "ceph", "glusterfs", "ncpfs"),
        *("davfs", "fuse.sshfs", "fuse.davfs2", "fuse.glusterfs", "fuse.rclone"),
    }
)
WARNING = (
    "the store lies on a network share ({kind}): let one computer at a time use it, or run "
    "`kitwright serve` where the disk is, or use PostgreSQL. Backups may lie on the share."
)


def share_of(path: Path) -> str:
    """Return the kind of network share a path lies on; empty where it lies on none, or unknown."""
    if str(path).startswith(("\\\\", "//")):
        return "network path"
    try:
        mounts = MOUNTS.read_text(encoding="utf-8", errors="replace").splitlines()
    except OSError:
        return ""
    kinds = [
        (len(point.parts), kind)
        for point, kind in map(_mount, mounts)
        if PurePosixPath(path).is_relative_to(point)
    ]
    kind = max(kinds, default=(0, ""))[1]
    return kind if kind in SHARES else ""


def _mount(line: str) -> tuple[PurePosixPath, str]:
    """Return where a line's file system is mounted, and its kind; blanks are written as octals."""
    _, point, kind, *_ = [*line.split(" "), "", "", ""]
    for sign, octal in ((" ", "\\040"), ("\t", "\\011"), ("\n", "\\012"), ("\\", "\\134")):
        point = point.replace(octal, sign)
    return PurePosixPath(point), kind
