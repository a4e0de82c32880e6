"""The store: rows of SQLite or PostgreSQL to core values, and back."""
