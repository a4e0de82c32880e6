"""The door of the command line; answers `--version` before anything else is imported."""

import gc
import os
import sys

_OBJECTS = 200_000
"""So many new objects before Python looks for cycles: a command and what it loads make some 80,000,
nearly all of which live to its end."""


def main() -> None:
    """Run the `kitwright` command."""
    if sys.argv[1:] in (["--version"], ["-V"]):
        from inventory import __version__  # noqa: PLC0415

        sys.stdout.write(f"kitwright {__version__}\n")
        return
    gc.set_threshold(_OBJECTS)
    # The library that checks parameters searches every installed package for plug-ins of its own.
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
    from inventory.cli.app import run  # noqa: PLC0415

    ended = run(sys.argv[1:])
    # Python would look through all that is left once more for cycles before it lets go of it: a
    # quarter of a short command's time. What is to be written or closed at the end still is.
    gc.freeze()
    sys.exit(ended)


if __name__ == "__main__":
    main()
