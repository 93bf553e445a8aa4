"""Logger files and books, read once into frozen values."""
