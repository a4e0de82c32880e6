"""Packing lists, typed: read one, look at it, compare what was sent again."""
