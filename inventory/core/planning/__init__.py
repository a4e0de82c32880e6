"""The plan against what is there: shortages, what can start, what to order."""
