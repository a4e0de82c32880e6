"""Scanned text, our numbers on labels, and whether pieces may be issued."""
