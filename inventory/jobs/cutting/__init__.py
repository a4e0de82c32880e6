"""At the saw."""
