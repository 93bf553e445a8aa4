"""The invented group, written once for all tests of this folder that only read it."""

from __future__ import annotations

from pathlib import Path

import pytest
from gather.made_group import made_group


@pytest.fixture(scope="session")
def collected(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """What the organiser of the invented group collected."""
    return made_group(tmp_path_factory.mktemp("group") / "collected")
