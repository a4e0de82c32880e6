"""What came: counts, findings, deliveries, clocks, claims, and what is still to come."""
