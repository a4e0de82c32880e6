"""What came, typed: deliveries, crates and counts, findings, claims, what a number means."""
