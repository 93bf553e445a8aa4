"""What all tests share."""

import os
import shutil
import tempfile

import pytest

# Before anything imports numpy: matrices here are small, and more threads of linear algebra only wait for each other.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
# One folder for what is made once a run (kept_reviews.py); the processes of the run find it by this name.
os.environ.setdefault("REPORTGEN_TEST_RUN", tempfile.mkdtemp(prefix="reportgen-tests-"))


def pytest_sessionfinish(session: pytest.Session) -> None:
    """The process that began the run takes its folder away."""
    if not hasattr(session.config, "workerinput"):
        shutil.rmtree(os.environ["REPORTGEN_TEST_RUN"], ignore_errors=True)
