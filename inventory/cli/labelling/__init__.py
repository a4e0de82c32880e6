"""Labels, typed: every kind on any stock, and the printer they are made for."""
