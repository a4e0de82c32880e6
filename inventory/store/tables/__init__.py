"""Typed tables of the store, a module for each subject."""
