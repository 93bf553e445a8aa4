"""The handout as files: the page that prints as one sheet, the picture for a group chat, and the same in words."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from markupsafe import Markup

from reportgen.charts.handout import handout, views
from reportgen.charts.handout_fit import plan_wide
from reportgen.charts.handout_parts import Handout
from reportgen.review import Review
from reportgen.site import chat_picture, resources
from reportgen.site.chat_words import text
from reportgen.site.views import SiteView


def files(review: Review, site: SiteView, page: object) -> dict[str, bytes]:
    """handout.html, handout.png and handout.txt."""
    seen = views(review)
    sheet = handout(review, seen)
    return {
        "handout.html": html(sheet, site, page).encode("utf-8"),
        "handout.png": chat_picture.png(sheet, seen),
        "handout.txt": text(sheet).encode("utf-8"),
    }


def html(sheet: Handout, site: SiteView, page: object) -> str:
    """The page, with its own style beside that of every page."""
    own = site.styled(resources.sheet_style())
    context: dict[str, Any] = {
        "sheet": sheet,
        "duo": plan_wide(sheet),
        "tight": sheet.level.root < 9,
        "season": _marked(sheet.season, "wide", "tall"),
        "changes": _marked(sheet.changes, "flat", "tall"),
        "kilogram": _marked(sheet.kilogram, "svg"),
    }
    return resources.environment().get_template("handout.html").render(site=own, page=page, **context)


def _marked(part: Any, *pictures: str) -> Any:
    """The part with its pictures as marks of our own pen, every word in them escaped."""
    return None if part is None else replace(part, **{name: Markup(getattr(part, name)) for name in pictures})
