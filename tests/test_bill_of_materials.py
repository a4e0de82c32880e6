"""The list of what the program is made of is whole."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from tests.bill_of_materials import components, main
from tests.test_dependencies import everything, locked, names

if TYPE_CHECKING:
    import pytest


def test_every_locked_package_is_listed_with_licence_and_hashes() -> None:
    listed = components()
    assert {each.name for each in listed} == set(locked())
    assert [each.name for each in listed if not each.sha256] == []
    assert [each.name for each in listed if each.licence == "not looked at"] == []


def test_what_is_asked_for_by_name_is_marked() -> None:
    marked = {each.name for each in components() if each.direct}
    assert marked & set(locked()) >= names(everything())


def test_the_list_is_printed_and_given_as_json(capsys: pytest.CaptureFixture[str]) -> None:
    main([])
    lines = capsys.readouterr().out.splitlines()
    assert any(line.startswith("* sqlalchemy") and "the store" in line for line in lines)
    main(["--json"])
    assert len(json.loads(capsys.readouterr().out)) == len(lines) - 1
