"""Cutting, typed: plans of cuts on screen and paper, and what was cut."""
