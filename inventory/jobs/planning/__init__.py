"""Plan, shortages, orders."""
