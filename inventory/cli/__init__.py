"""The command line: reads what is typed, calls one job, shows its answer."""
