"""Phones and other computers: pages served, devices listed and shut out."""
