"""Bins, steps and scans."""
