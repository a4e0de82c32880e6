"""Rows of what came: deliveries, lists, counts, photographs, reports."""
