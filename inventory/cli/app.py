"""One command line: run, and every refusal turned into an exit code."""

from __future__ import annotations

import errno
import io
import os
import re
import sys
from typing import TYPE_CHECKING

import typer
from typer.exceptions import TyperException

from inventory.cli import context
from inventory.cli.as_typed import command_of
from inventory.cli.exits import Exit, told
from inventory.cli.tree import app_for, whole_app
from inventory.core.errors import InventoryError
from inventory.core.plain import plain

if TYPE_CHECKING:
    from collections.abc import Sequence


_NEGATIVE = re.compile(r"No such option: -[0-9]")
"""A number with a minus, taken for an option."""
_NOTHING_ASKED = "NoArgsIsHelpError"
"""What Typer calls a word alone that has commands below it; its message is their list."""


def run(arguments: Sequence[str]) -> int:
    """Run one command line; return its exit code."""
    if any("\ud800" <= sign <= "\udfff" for word in arguments for sign in word):
        return _no_text()
    _show_any_sign()
    words = common_first(arguments)
    app = whole_app() if "_KITWRIGHT_COMPLETE" in os.environ else app_for(_command(words))
    try:
        ended = command_of(app)(words, standalone_mode=False, prog_name="kitwright")
        sys.stdout.flush()
    except TyperException as error:
        return _wrong_use(error)
    except InventoryError as error:
        return told(error)
    except BrokenPipeError:
        _end_output()
        return Exit.DONE
    except OSError as error:
        return _no_room(error)
    except typer.Abort:
        ended = Exit.INTERRUPTED
    if ended == Exit.INTERRUPTED:
        sys.stderr.write("\ninterrupted; all that was shown as recorded is stored\n")
    return int(ended or Exit.DONE)


def _show_any_sign() -> None:
    """Write signs that this terminal can't show as their codes, instead of stopping at them."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")


def _end_output() -> None:
    """Let nothing more be written, not even at the interpreter's end."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _no_room(error: OSError) -> int:
    if error.errno != errno.ENOSPC:
        raise error
    _end_output()
    sys.stderr.write("error: no room is left on the disk for the answer\n")
    sys.stderr.write("try:   make room and look again; kitwright history shows what is stored\n")
    return Exit.FAULT


def _no_text() -> int:
    """Refuse bytes that aren't text in this terminal's encoding: no record could hold them."""
    sys.stderr.write("error: something on the command line isn't text\n")
    sys.stderr.write("try:   type it again; rename the file if it is a file's name\n")
    return Exit.WRONG_USE


def _wrong_use(error: TyperException) -> int:
    told = error.format_message()
    if type(error).__name__ == _NOTHING_ASKED:
        sys.stdout.write(f"{told}\n")
        return Exit.WRONG_USE
    if _NEGATIVE.match(told):
        sys.stderr.write("error: a negative number can't be\n")
        sys.stderr.write("try:   type it without the minus; to take an act back: kitwright undo\n")
        return Exit.WRONG_USE
    sys.stderr.write(f"error: {plain(' '.join(told.split()))}\n")
    sys.stderr.write("try:   add --help to the command for its options and an example\n")
    return Exit.WRONG_USE


def _command(words: Sequence[str]) -> str:
    """Return the first word that is no option of every command, nor the value of one."""
    left = list(words)
    while left and left[0].startswith("-"):
        del left[: 2 if left[0] in context.COMMON else 1]
    return left[0] if left else ""


def common_first(arguments: Sequence[str]) -> list[str]:
    """Return the arguments with the options of every command moved to the front."""
    first: list[str] = []
    rest: list[str] = []
    left = list(arguments)
    while left:
        word = left.pop(0)
        if word == "--":
            return [*first, *rest, word, *left]
        name, equals, _ = word.partition("=")
        if name in context.COMMON and (equals or left):
            first += [word] if equals else [word, left.pop(0)]
        else:
            rest.append(word)
    return [*first, *rest]
