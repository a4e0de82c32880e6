"""The web face: pages and an open interface over the same acts as the command line."""
