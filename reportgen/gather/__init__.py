"""Many houses, many winters: what several reviews say together. Reads data/review.json only, never a season folder."""
