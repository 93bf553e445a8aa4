"""Makes the measured files of sample_season/ again: .venv/bin/python tests/make_sample.py"""

from __future__ import annotations

from pathlib import Path

from simulator.sample import write_sample

if __name__ == "__main__":
    write_sample(Path(__file__).parents[1] / "sample_season")
