"""Balance, loads and load-in plans for manual counterweight fly systems."""
