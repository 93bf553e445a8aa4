"""Results drawn with their words and their tables: one module a page of `reportgen.pages`."""

from __future__ import annotations

from dataclasses import replace
from importlib import import_module

from reportgen.charts.grounds_tables import grounds_tables
from reportgen.charts.left_out import left_out, no_soil
from reportgen.charts.types import Page
from reportgen.pages import NAMES as NAMES
from reportgen.pages import PAGES as PAGES
from reportgen.review import Review


def page(slug: str, review: Review) -> Page:
    """That page's headline, charts, tables and notes, and what its figures lack."""
    built: Page = import_module(f"reportgen.charts.{slug}").page(review)
    built = replace(built, blocks=(*built.blocks, *grounds_tables(slug, review)))
    if not built.answers and slug in ("changes", "winters"):  # nothing was compared, so nothing is missing
        return built
    notes = [note for note in (no_soil(slug, review), left_out(slug, review)) if note is not None]
    return replace(built, blocks=(*built.blocks, *notes))
