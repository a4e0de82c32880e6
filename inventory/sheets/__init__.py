"""Spreadsheets as offices send them, read to the values of the workshop."""
