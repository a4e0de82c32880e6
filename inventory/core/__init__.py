"""Frozen values of the workshop and pure functions over them."""
