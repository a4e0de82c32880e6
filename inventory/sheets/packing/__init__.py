"""A supplier's packing list, row by row."""
