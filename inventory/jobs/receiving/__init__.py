"""At the crate, and whom to tell."""
