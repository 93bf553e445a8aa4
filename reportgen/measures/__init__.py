"""Pure functions of readings, each into one frozen result."""
