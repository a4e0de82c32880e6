"""Sheets that people at the bench keep: counts, and moves into bins."""
