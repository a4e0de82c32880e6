"""A store opened: where it lies, its settings and schema, and its faults in words."""
