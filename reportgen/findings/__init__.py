"""Results in ranked sentences."""
