"""The sample season: an invented grower's two winters, made by the simulator. Run tests/make_sample.py."""

from simulator.sample.write import FILES_BY_HAND, write_sample

__all__ = ["FILES_BY_HAND", "write_sample"]
