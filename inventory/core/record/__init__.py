"""The ledger, its slips and seals, and what copies of it must hold."""
