"""Drawings made on the server: black on white first, words beside every shape, no script."""
