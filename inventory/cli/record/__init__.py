"""The record kept safe, typed: backup, restore, verify, export, rebuild."""
