"""Acts at the bench: one act is one function and one transaction."""
