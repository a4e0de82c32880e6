"""Which command stands in which module: only the module that is called is imported.

The summaries stand here so that `--help` loads no command at all; a test holds the names equal.
"""

from __future__ import annotations

import re
from importlib import import_module
from typing import NamedTuple

import typer


class Entry(NamedTuple):
    """One command, or one group of commands."""

    module: str
    summary: str


COMMANDS = {
    "demo": Entry("demo", "Walk through the whole job with a small invented kit."),
    "kit": Entry("kits", "Begin a kit, and look at the kits of a store."),
    "delivery": Entry(
        "receiving.deliveries", "Record a delivery before signing, and print its checklist."
    ),
    "packing-list": Entry("lists.packing_lists", "Read a supplier's packing list, and look at it."),
    "crate": Entry("receiving.crates", "Open, count, check and close crates."),
    "findings": Entry(
        "receiving.findings", "Show what differs between the packing list and the counts."
    ),
    "claims": Entry("receiving.claims", "See whom to tell what by when, and write the reports."),
    "bin": Entry("bench.bins", "Add bins, put pieces into them, count them again."),
    "where": Entry("bench.where", "Show where a part lies, and which steps will take it."),
    "identify": Entry(
        "receiving.identify", "Say what a number means, or what an unmarked part may be."
    ),
    "hold": Entry("bench.holding", "Hold pieces back: they can't be issued any more."),
    "release": Entry("bench.holding", "Put held pieces into a bin again; say who decided it."),
    "send-back": Entry("receiving.send_back", "Send pieces back, and look at what went back."),
    "labels": Entry("labelling.labels", "Print labels and tags: bins, bags, parts, steps, crates."),
    "printer": Entry(
        "labelling.label_printers", "Keep a label printer by what was measured on its page."
    ),
    "plan": Entry("planning.plans", "Read the plan, look at it, check it."),
    "short": Entry("planning.shortages", "Show what is short, of one step or of all, and why."),
    "ready": Entry(
        "planning.readiness", "Show which steps can start now, and what keeps the others."
    ),
    "what-if": Entry("planning.what_if", "Show what some pieces more or fewer would change."),
    "left-over": Entry(
        "planning.what_if", "Show what no step takes: spare, or forgotten in the plan."
    ),
    "lay-out": Entry(
        "planning.laying_out", "Lay a section's parts out: roll, scan loop, missing list."
    ),
    "set-aside": Entry(
        "planning.preparing", "Set pieces aside for a step; no other step takes them."
    ),
    "substitute": Entry(
        "planning.preparing", "Record who lets one part be used instead of another."
    ),
    "prepared": Entry(
        "planning.preparing", "Record pieces as deburred, primed, or what your list says."
    ),
    "pick": Entry("bench.picking", "Show what to fetch for a step, bin after bin."),
    "step": Entry("bench.steps", "Start steps, mark them done, open them again."),
    "scan": Entry("bench.scan", "Scan parts out to steps: bin, part, step."),
    "serve": Entry("network.serve", "Serve pages for phones and this computer's browser."),
    "devices": Entry("network.devices", "List paired phones, and shut them out."),
    "issue": Entry("bench.issuing", "Record pieces as issued to a step."),
    "take-back": Entry("bench.issuing", "Record pieces as back from a step."),
    "scrap": Entry("bench.issuing", "Record pieces as scrapped; say why."),
    "lot": Entry("planning.lots", "Keep dates and papers of lots; find one, hold it back; film."),
    "cut": Entry("cutting.cut", "Plan cuts from stock, and record them."),
    "to-order": Entry(
        "planning.ordering", "Show what is to be ordered or claimed, and keep orders."
    ),
    "history": Entry("bench.history", "Show what was done, newest first."),
    "undo": Entry("bench.history", "Undo the last act, or one by its number."),
    "backup": Entry("record.backup", "Copy store and photographs, and read the copy back."),
    "restore": Entry("record.backup", "Put a backup in the store's place."),
    "verify": Entry("record.backup", "Read the whole record again and say what is wrong."),
    "export": Entry("record.backup", "Write the whole record as plain text."),
    "rebuild": Entry("record.backup", "Make an identical store from an export."),
}
"""In the order of the job."""
_ROOM = 60
"""Characters that the list of commands has for each, in a terminal of 80 columns."""
_FIRST_CLAUSE = re.compile(r"(.{1,62}?)[;:]")
_TO_A_COMMA = re.compile(rf"(.{{1,{_ROOM}}}),")
_COMMON = "Also --store, --kit, --by, --on, --device, --paper: see kitwright --help."


def app_for(word: str) -> typer.Typer:
    """Return the tree with the one module that holds the command, or with bare summaries."""
    app = _bare()
    if word in COMMANDS:
        import_module(f"inventory.cli.{COMMANDS[word].module}").add_to(app)
        _tell_common(app)
        return app
    for name, entry in COMMANDS.items():
        app.command(name, help=entry.summary)(_stand_in)
    return app


def _tell_common(app: typer.Typer) -> None:
    """Let each command say one whole clause in its list, and at its end what all of them take."""
    for command in app.registered_commands:
        command.short_help = _clause(command.callback.__doc__ or "") if command.callback else None
        command.epilog = f"{command.epilog}\n\n{_COMMON}" if command.epilog else _COMMON
    for group in app.registered_groups:
        if group.typer_instance:
            _tell_common(group.typer_instance)


def _clause(words: str) -> str:
    """Return the first sentence, cut after a clause where it is too long for a list of commands."""
    sentence = " ".join(words.split("\n\n", maxsplit=1)[0].split())
    if len(sentence) > _ROOM:
        cut = _FIRST_CLAUSE.match(sentence) or _TO_A_COMMA.match(sentence)
        sentence = cut[1] if cut else sentence
    return f"{sentence.rstrip('.')}."


def whole_app() -> typer.Typer:
    """Return the tree with all modules loaded: for completion and for the command reference."""
    app = _bare()
    for module in dict.fromkeys(entry.module for entry in COMMANDS.values()):
        import_module(f"inventory.cli.{module}").add_to(app)
    return app


def _stand_in() -> None:
    """Stand for a command in the list of commands; never called."""


def _bare() -> typer.Typer:
    from inventory.cli.context import take_common

    app = typer.Typer(
        name="kitwright",
        no_args_is_help=True,
        rich_markup_mode=None,
        pretty_exceptions_enable=False,
        context_settings={"help_option_names": ["-h", "--help"]},
        help=(
            "The stock record of an aircraft kit: crates counted against the packing list, bins "
            "with barcode labels, shortages before the work starts, parts scanned out to steps."
            "\n\nExample: kitwright demo\n\n"
            "It records what people say. It never says that a part is good: the plans, the "
            "supplier, local rules and licensed practice decide."
        ),
        epilog=(
            "Every command takes, anywhere on the line: --store FILE (or KITWRIGHT_STORE), "
            "--kit NAME (KITWRIGHT_KIT), --by PERSON (KITWRIGHT_BY), --on DATE, --device NAME, "
            "--paper a4 or letter (KITWRIGHT_PAPER)."
        ),
    )
    app.callback()(take_common)
    return app
