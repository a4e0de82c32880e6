"""The door of the command line; answers `--version` before anything else is imported."""

import sys


def main() -> None:
    """Run the `kitwright` command."""
    if sys.argv[1:] in (["--version"], ["-V"]):
        from inventory import __version__  # noqa: PLC0415

        sys.stdout.write(f"kitwright {__version__}\n")
        return
    from inventory.cli.app import run  # noqa: PLC0415

    sys.exit(run(sys.argv[1:]))


if __name__ == "__main__":
    main()
