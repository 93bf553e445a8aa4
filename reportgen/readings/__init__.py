"""Logger files and books, read once into frozen values."""

from reportgen.readings.season_reader import read_season

__all__ = ["read_season"]
