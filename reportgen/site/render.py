"""A review as files: pages, review.json and one CSV a drawing, all in memory before anything is written."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from markupsafe import Markup

from reportgen.charts import NAMES, PAGES, page
from reportgen.charts.handout import Shown, handout
from reportgen.charts.index import front
from reportgen.charts.method import explained
from reportgen.charts.types import Drawing, Page, Table
from reportgen.measures.there import There
from reportgen.review import Review
from reportgen.site import chat_picture, resources
from reportgen.site.care import Care
from reportgen.site.finding_views import rows, steps, sure
from reportgen.site.shown_units import in_shown_units
from reportgen.site.story import Story, story_html
from reportgen.site.tables import csv_text
from reportgen.site.views import NavItem, ShownView, SiteView, of_drawing, of_page
from reportgen.wording import Wording, day

Tell = Callable[[str], None]


@dataclass(frozen=True, kw_only=True, slots=True)
class Single:
    """A page put together by itself: its address, its name, and whether it needs the script."""

    slug: str
    nav: str
    script: bool = False


def document_of(review: Review, *, share: bool = False) -> dict[str, Any]:
    """data/review.json as it will stand in the site; shared, without the zone of a private place."""
    document = review.to_dict()
    if share and not review.season.share.place:
        document["season"]["time_zone"] = None
    return document


def files(review: Review, tell: Tell, *, story: Story | None = None, share: bool = False) -> dict[str, bytes]:
    """Every file of the site by its path in it; `story` is one of whose figures all are known."""
    document = document_of(review, share=share)
    w = Wording.of(review.season)
    words = story_html(story, document, w) if story is not None else None
    pages = [in_shown_units(page(slug, review), w) for slug in PAGES]
    first = front(review, pages, document)
    site = site_view(review, pages)
    out: dict[str, str] = {}
    anchors = frozenset(block.uid for one in pages for block in one.blocks if isinstance(block, Drawing | Table))
    for one in pages:
        tell(f"drawing {NAMES[one.slug]}")
        view = of_page(one, review.findings, anchors)
        out[f"{one.slug}.html"] = _render("page.html", site=site, page=view)
    care = Care()
    best = rows(first.findings, anchors=anchors, on="index", care=care)
    out["index.html"] = _render(
        "index.html",
        site=site,
        page=Single(slug="index", nav=NAMES["index"], script=first.strip is not None),
        front=first,
        strip=of_drawing(first.strip) if first.strip else None,
        findings=best,
        steps=steps(first.steps, care),
        story=words,
    )
    out["method.html"] = _render(
        "method.html", site=site, page=_single("method"), explained=explained(review), names=NAMES
    )
    sheet = handout(review, pages)
    shown = tuple(_shown(s) for s in sheet.shown)
    out["handout.html"] = _render("handout.html", site=site, page=_single("handout"), handout=sheet, shown=shown)
    out["handout.txt"] = chat_picture.text(sheet)
    out |= data_files(document, pages, first.strip)
    built = {name: text.encode("utf-8") for name, text in out.items()}
    built["handout.png"] = chat_picture.png(sheet, tuple(view.chart for view in shown))
    return dict(sorted(built.items()))


def _shown(one: Shown) -> ShownView:
    chart = of_drawing(one.drawing)
    lines = bool(chart.marks and chart.numbered_wide)
    return ShownView(
        claim=one.claim,
        evidence=one.evidence,
        next_step=one.next_step,
        sure=sure(one.finding),
        lines=lines,
        chart=chart,
    )


def _single(slug: str) -> Single:
    return Single(slug=slug, nav=NAMES[slug])


def data_files(document: Mapping[str, Any], pages: Sequence[Page], strip: Drawing | None) -> dict[str, str]:
    """data/review.json and data/<uid>.csv."""
    out = {"data/review.json": json.dumps(document, ensure_ascii=False, indent=1, allow_nan=False) + "\n"}
    if strip is not None:
        out[f"data/{strip.uid}.csv"] = csv_text(strip.table)
    for block in (block for one in pages for block in one.blocks):
        if isinstance(block, Drawing | Table):
            out[f"data/{block.uid}.csv"] = csv_text(block.table if isinstance(block, Drawing) else block.data)
    return out


def site_view(review: Review, pages: Sequence[Page]) -> SiteView:
    """What every page carries."""
    style, script = resources.style(), resources.script()
    answers = {one.slug: one.answers for one in pages}
    nav = tuple(NavItem(slug=slug, title=name, answers=answers.get(slug, True)) for slug, name in NAMES.items())
    season = review.season
    winter = There.of(review.readings).season
    footer = (
        f"One house, one {winter}: {day(season.first_day, year=True)} to {day(season.last_day, year=True)}. "
        "What held here need not hold elsewhere. Local codes and licensed trades come first. "
        "Every number can be worked out again from the files in the folder data."
    )
    return SiteView(
        title=season.title,
        style=Markup(style),  # our own file and palette
        script=Markup(script),
        policy=resources.policy(style, script),
        nav=nav,
        footer=footer,
    )


def _render(template: str, **context: Any) -> str:
    return resources.environment().get_template(template).render(**context)
