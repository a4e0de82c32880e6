"""Acting as somebody who may do less: root would be stopped by no read-only file."""

from __future__ import annotations

import os
import shutil
import tempfile
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

NOBODY = 65534


@contextmanager
def without_rights() -> Iterator[None]:
    """Run a block as a user who owns nothing; who isn't root already stays who they are."""
    if os.geteuid() != 0:
        yield
        return
    os.setegid(NOBODY)
    os.seteuid(NOBODY)
    try:
        yield
    finally:
        os.seteuid(0)
        os.setegid(0)


@contextmanager
def reachable_folder() -> Iterator[Path]:
    """Give a folder that everybody may enter: pytest's own are for their owner alone."""
    folder = Path(tempfile.mkdtemp(prefix="kitwright-test-"))
    folder.chmod(0o755)
    try:
        yield folder
    finally:
        folder.chmod(0o755)
        shutil.rmtree(folder)
