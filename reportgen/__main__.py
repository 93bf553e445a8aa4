"""`python -m reportgen`."""

from reportgen.cli import main

main()
