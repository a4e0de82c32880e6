"""Rows of the plan and of what was decided for it: lots, offers, orders, substitutes."""
