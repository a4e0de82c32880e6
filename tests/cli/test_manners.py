from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from inventory.cli.app import common_first, run
from inventory.cli.exits import Exit
from inventory.cli.tree import COMMANDS, whole_app

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tests.cli.conftest import Typist


def commands() -> Iterator[list[str]]:
    from typer.main import get_command  # noqa: PLC0415

    def walk(command: object, path: list[str]) -> Iterator[list[str]]:
        children = getattr(command, "commands", None)
        if children is None:
            yield path
            return
        for name, child in children.items():
            yield from walk(child, [*path, name])

    yield from walk(get_command(whole_app()), [])


@pytest.mark.parametrize("words", list(commands()), ids=" ".join)
def test_every_command_has_help_with_an_example(typed: Typist, words: list[str]) -> None:
    told = typed(*words, "--help")
    assert told.code == Exit.DONE
    assert f"Example: kitwright {' '.join(words)}" in " ".join(told.out.split())
    assert max(map(len, told.out.splitlines())) <= 80
    assert "Also --store, --kit, --by, --on, --device, --paper" in told.out


GROUPS = sorted({words[0] for words in commands() if len(words) > 1})


@pytest.mark.parametrize("words", [[], *([name] for name in GROUPS)], ids=" ".join)
def test_lists_of_commands_break_no_sentence_off(typed: Typist, words: list[str]) -> None:
    told = typed(*words, "--help").out
    listed = told[told.index("\nCommands:") :]
    assert "..." not in listed


ASKING_NOTHING = sorted(set(GROUPS) - {"claims", "to-order"})


@pytest.mark.parametrize("words", [[name] for name in ASKING_NOTHING], ids=" ".join)
def test_word_alone_lists_the_commands_below_it(typed: Typist, words: list[str]) -> None:
    told = typed(*words)
    assert (told.code, told.err) == (Exit.WRONG_USE, "")
    assert told.out == typed(*words, "--help").out
    assert "\nCommands:\n" in told.out


def test_kitwright_alone_lists_all_commands(
    typed: Typist, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run([]) == Exit.WRONG_USE
    assert capsys.readouterr() == (typed("--help").out, "")


def test_tree_names_every_command_and_no_other() -> None:
    from typer.main import get_command  # noqa: PLC0415

    assert set(COMMANDS) == set(vars(get_command(whole_app()))["commands"])


def test_common_options_may_stand_anywhere() -> None:
    assert common_first(["where", "X", "--kit", "T2", "--on=2026-01-02", "--json"]) == [
        "--kit",
        "T2",
        "--on=2026-01-02",
        "where",
        "X",
        "--json",
    ]


def test_what_follows_two_dashes_is_left_alone() -> None:
    assert common_first(["where", "--", "--kit", "T2"]) == ["where", "--", "--kit", "T2"]


def test_no_store_says_what_to_do_first(typed: Typist) -> None:
    told = typed("ready")
    assert told.code == Exit.NO_STORE
    assert "there is no store here" in told.err
    assert "kitwright kit new" in told.err
    assert not (typed.folder / "kits.kitwright").exists()


def test_store_without_a_kit_says_so(typed: Typist) -> None:
    from inventory.jobs.stores import open_or_begin  # noqa: PLC0415

    open_or_begin(str(typed.folder / "kits.kitwright")).close()
    assert "holds no kit yet" in typed("ready").err


def test_unknown_command_is_wrong_use(typed: Typist) -> None:
    told = typed("fly")
    assert (told.code, told.out) == (Exit.WRONG_USE, "")
    assert "No such command 'fly'" in told.err


def test_word_out_of_a_choice_is_asked_for_on_one_line(typed: Typist) -> None:
    told = typed("labels")
    assert told.code == Exit.WRONG_USE
    assert told.err.startswith("error: Missing argument 'KIND'. Choose from: bins, bags, parts,")


@pytest.mark.parametrize("amount", ["-2", "-200", "-0.5"])
def test_negative_amount_is_refused_in_words(typed: Typist, amount: str) -> None:
    told = typed("hold", "AN3-5A", amount, "--from", "D-01", "--why", "thread")
    assert told.code == Exit.WRONG_USE
    assert "a negative number can't be" in told.err
    assert "No such option: -x" in typed("hold", "AN3-5A", "-x").err


def test_bytes_that_arent_text_are_wrong_use(typed: Typist) -> None:
    typed("kit", "new", "Tarn T2")
    for words in (("where", "\udcff"), ("bin", "add", "B", "--shelf", "\udcff"), ("kit", "\ud800")):
        told = typed(*words)
        assert (told.code, told.out) == (Exit.WRONG_USE, "")
        assert told.err.startswith("error: something on the command line isn't text\ntry: ")


def ran(folder: Path, *words: str, encoding: str = "utf-8", out: str = "") -> tuple[int, str, str]:
    """Run the command as its own program, with what its terminal can show."""
    with Path(out or os.devnull).open("w", encoding="utf-8") as file:
        ended = subprocess.run(
            [sys.executable, "-m", "inventory", "--store", str(folder / "kits.kitwright"), *words],
            env=os.environ | {"PYTHONIOENCODING": encoding},
            stdout=file if out else subprocess.PIPE,
            stderr=subprocess.PIPE,
            check=False,
        )
    return ended.returncode, (ended.stdout or b"").decode(encoding), ended.stderr.decode(encoding)


@pytest.mark.parametrize("encoding", ["ascii", "cp1252"])
def test_signs_that_a_terminal_cant_show_are_shown_as_codes(typed: Typist, encoding: str) -> None:
    typed("kit", "new", "Tarn \u4e2d")
    code, out, err = ran(typed.folder, "kit", "list", encoding=encoding)
    assert (code, err) == (Exit.DONE, "")
    assert "Tarn \\u4e2d" in out
    _, out, _ = ran(typed.folder, "kit", "list", "--json", encoding=encoding)
    assert json.loads(out)["content"][0]["name"] == "Tarn \u4e2d"


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no /dev/full on this system")
def test_full_disk_under_the_answer_is_said_in_words(typed: Typist) -> None:
    typed("kit", "new", "Tarn T2")
    code, _, err = ran(typed.folder, "kit", "list", out="/dev/full")
    assert code == Exit.FAULT
    assert err.startswith("error: no room is left on the disk for the answer\ntry: ")
    assert "Traceback" not in err


def test_refusal_is_exit_3_with_a_remedy(typed: Typist) -> None:
    typed("kit", "new", "Tarn T2")
    told = typed("where", "X-1")
    assert told.code == Exit.REFUSED
    assert told.err.startswith("error: no part X-1 is known")
    assert "\ntry:   " in told.err


def test_two_kits_must_be_told_apart(typed: Typist) -> None:
    typed("kit", "new", "Tarn T2")
    typed("kit", "new", "Tarn T3")
    assert "say which one with --kit" in typed("ready").err.lower()
    assert typed("ready", "--kit", "tarn t3").code == Exit.DONE
    assert "there is no kit 'T9'" in typed("ready", "--kit", "T9").err
    assert [kit["name"] for kit in typed("kit", "list", "--json").content] == ["Tarn T2", "Tarn T3"]
    assert "Tarn T3" in typed("kit", "list").out


def test_kit_codes_differ_and_are_two_characters(typed: Typist) -> None:
    assert "(TA)" in typed("kit", "new", "Tarn").out
    assert "(TR)" in typed("kit", "new", "Tarn again").out
    assert typed("kit", "new", "Third", "--code", "TA").code == Exit.REFUSED
    assert typed("kit", "new", "Tarn").code == Exit.REFUSED
    assert typed("kit", "new", "  ").code == Exit.REFUSED


@pytest.mark.parametrize(
    ("day", "words"), [("2099-01-01", "still to come"), ("14.3.2026", "is no date")]
)
def test_day_must_be_a_day_up_to_today(typed: Typist, day: str, words: str) -> None:
    typed("kit", "new", "Tarn T2")
    told = typed("bin", "add", "A", "--on", day)
    assert (told.code, words in told.err) == (Exit.REFUSED, True)


def test_version_is_answered_before_anything_is_imported(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    import inventory  # noqa: PLC0415
    from inventory.__main__ import main  # noqa: PLC0415

    monkeypatch.setattr("sys.argv", ["kitwright", "--version"])
    main()
    assert capsys.readouterr().out == f"kitwright {inventory.__version__}\n"


def test_main_ends_with_the_commands_exit_code(monkeypatch: pytest.MonkeyPatch) -> None:
    from inventory.__main__ import main  # noqa: PLC0415

    monkeypatch.setattr("sys.argv", ["kitwright", "fly"])
    with pytest.raises(SystemExit) as ended:
        main()
    assert ended.value.code == Exit.WRONG_USE


def test_ctrl_c_says_what_is_stored(typed: Typist, monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupted(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("inventory.jobs.kits.list_kits", interrupted)
    typed("kit", "new", "Tarn T2")
    told = typed("kit", "list")
    assert told.code == Exit.INTERRUPTED
    assert "all that was shown as recorded is stored" in told.err


@pytest.mark.parametrize("command", ["ready", "short"])
def test_kit_without_a_plan_says_what_to_read(typed: Typist, command: str) -> None:
    typed("kit", "new", "Tarn T2")
    told = typed(command)
    assert told.out == "no plan was read yet\n"
    assert told.err == "next: kitwright plan read PLAN.xlsx\n"
