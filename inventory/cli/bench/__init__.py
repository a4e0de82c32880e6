"""At the bench, typed: bins, scanning out, steps, holding back, what was done."""
