"""Copies of a store: backups, exports, what can be saved, and what can be wrong inside."""
