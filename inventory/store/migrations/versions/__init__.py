"""Numbered changes of the store; a released one is never edited again."""
