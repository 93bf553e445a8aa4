"""What all tests share."""

import os

# Before anything imports numpy: matrices here are small, and more threads of linear algebra only wait for each other.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
