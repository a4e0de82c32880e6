"""Copies of the record, and looking it through."""
