"""Stock, steps, replay and placement, returned as values for a person to read."""
