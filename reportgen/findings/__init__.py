"""Findings: the season in sentences that hold up when somebody asks how you know. One module a page, then ranked."""

from __future__ import annotations

from importlib import import_module

from reportgen.findings.ranking import rank
from reportgen.findings.results import Results
from reportgen.findings.types import Finding

PAGES = ("record", "frost", "heat", "damp", "soil", "light", "changes", "harvest", "winters", "cross")


def find(results: Results) -> tuple[Finding, ...]:
    """Every finding of every page, the weightiest first; *nothing wrong here* where none speaks of harm or cost."""
    found: list[Finding] = []
    for page in PAGES:
        found.extend(import_module(f"reportgen.findings.{page}").findings(results))
    found.extend(import_module("reportgen.findings.cross").nothing_wrong(results, found))
    return rank(found)
