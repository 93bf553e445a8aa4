"""Results drawn with their words and their tables."""
