"""Before the work, typed: plan, shortages, what can start, lay-out, lots, orders."""
