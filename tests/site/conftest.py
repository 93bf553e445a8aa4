"""The site of the sample season, built once for all tests of this folder."""

from __future__ import annotations

from pathlib import Path

import pytest
from kept_reviews import site_of


@pytest.fixture(scope="session")
def sample_site() -> Path:
    """The built site of the sample season."""
    return site_of("sample")
