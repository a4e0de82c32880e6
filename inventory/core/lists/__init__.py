"""Packing lists: lines, layouts, revisions, and what their words say."""
