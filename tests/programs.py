"""System programs that some tests need: a skip that names them, a failure under KITWRIGHT_ALL."""

from __future__ import annotations

import ctypes.util
import os
import shutil
from typing import NoReturn

import pytest


def require_program(*names: str) -> str:
    """Return the path of the first program found; without one the test is skipped by name."""
    for name in names:
        found = shutil.which(name)
        if found:
            return found
    return _missing(f"the program {' or '.join(names)}")


def require_library(name: str) -> str:
    """Return the system library's file name; without it the test is skipped by name."""
    return ctypes.util.find_library(name) or _missing(f"the system library {name}")


def _missing(what: str) -> NoReturn:
    if os.environ.get("KITWRIGHT_ALL", "0") != "0":
        pytest.fail(f"{what} is missing, and KITWRIGHT_ALL wants every test to run", pytrace=False)
    pytest.skip(f"{what} is not installed")
