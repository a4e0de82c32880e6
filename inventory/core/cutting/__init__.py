"""Cutting pieces from stock lengths."""
