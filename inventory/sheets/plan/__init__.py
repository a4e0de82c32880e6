"""The plan of work."""
