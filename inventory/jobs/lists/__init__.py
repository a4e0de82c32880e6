"""Packing lists taken in."""
