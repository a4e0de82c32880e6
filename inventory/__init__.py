"""Kitwright: the stock record of an aircraft kit, from the crate to the step that used the part."""

__version__ = "0.1.0"
