"""Results drawn with their words and their tables: one module a page, in the order in which the pages stand."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from importlib import import_module
from types import MappingProxyType

from reportgen.charts.grounds_tables import grounds_tables
from reportgen.charts.left_out import left_out, no_soil
from reportgen.charts.types import Page
from reportgen.review import Review

# slug → its name in the navigation; the first page, the method page and the handout are put together by themselves
NAMES: Mapping[str, str] = MappingProxyType(
    {
        "index": "Winter",
        "changes": "Changes",
        "frost": "Frost",
        "heat": "Heat",
        "damp": "Damp",
        "soil": "Soil",
        "light": "Light",
        "harvest": "Harvest",
        "winters": "Two winters",
        "record": "Record",
        "method": "Method",
        "handout": "Handout",
    }
)
PAGES = tuple(slug for slug in NAMES if slug not in ("index", "method", "handout"))


def page(slug: str, review: Review) -> Page:
    """That page's headline, charts, tables and notes, and what its figures lack."""
    built: Page = import_module(f"reportgen.charts.{slug}").page(review)
    built = replace(built, blocks=(*built.blocks, *grounds_tables(slug, review)))
    if not built.answers and slug in ("changes", "winters"):  # nothing was compared, so nothing is missing
        return built
    notes = [note for note in (no_soil(slug, review), left_out(slug, review)) if note is not None]
    return replace(built, blocks=(*built.blocks, *notes))
