"""The site of the sample season, built once for all tests of this folder."""

from __future__ import annotations

from pathlib import Path

import pytest

from reportgen.pipeline import review

SAMPLE = Path(__file__).parents[2] / "sample_season"


@pytest.fixture(scope="session")
def sample_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The built site of the sample season."""
    out = tmp_path_factory.mktemp("site") / "site"
    review(SAMPLE, out)
    return out
