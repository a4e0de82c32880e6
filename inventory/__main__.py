"""The door of the command line; answers `--version` before anything else is imported."""

import gc
import os
import sys

_OBJECTS = 50_000
"""So many new objects before Python looks for cycles: loading a command makes that many, and
looking through them again and again was a tenth of its time."""


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

    sys.exit(run(sys.argv[1:]))


if __name__ == "__main__":
    main()
