"""A review as files: pages, review.json and one CSV a drawing, all in memory before anything is written."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from markupsafe import Markup

from reportgen.charts import NAMES, PAGES, page
from reportgen.charts.index import Front, front
from reportgen.charts.method import explained
from reportgen.charts.nights_views import ribbon_of
from reportgen.charts.types import Drawing, Page, Table
from reportgen.charts.winter import Sketch
from reportgen.measures.there import There
from reportgen.review import Review
from reportgen.site import counsel_views, resources, sheet
from reportgen.site.care import Care, cautions_of
from reportgen.site.plain_names import plain_findings, plain_front, plain_page
from reportgen.site.plan_files import TICKS, plan_files
from reportgen.site.shown_units import in_shown_units
from reportgen.site.story import Story, story_html
from reportgen.site.tables import csv_text
from reportgen.site.views import NavItem, SiteView, in_brief, of_drawing, of_page
from reportgen.wording import Wording, day

Tell = Callable[[str], None]
SAYS = {
    "index": "What was found, and what to do",
    "method": "How each figure was worked out",
    "handout": "One printed page, and one picture to send",
}


@dataclass(frozen=True, kw_only=True, slots=True)
class Single:
    """A page put together by itself: its address, its name, and whether it needs the script."""

    slug: str
    nav: str
    script: bool = False
    cautions: tuple[str, ...] = ()


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
    pages = [plain_page(in_shown_units(page(slug, review), w)) for slug in PAGES]
    first = plain_front(front(review, pages, document))
    site = site_view(review, pages)
    out: dict[str, str] = {}
    anchors = frozenset(block.uid for one in pages for block in one.blocks if isinstance(block, Drawing | Table))
    for one in pages:
        tell(f"drawing {NAMES[one.slug]}")
        view = of_page(one, plain_findings(review.findings), anchors)
        out[f"{one.slug}.html"] = _render("page.html", site=site, page=view)
    plan = plan_files(review)
    out["index.html"] = _render("index.html", site=site, story=words, **_winter(first, review, TICKS in plan))
    out["method.html"] = _render(
        "method.html",
        site=site.styled(resources.method_style()),
        page=_single("method"),
        explained=explained(review),
        names=NAMES,
    )
    out |= data_files(document, pages, first.season) | plan
    built = {name: text.encode("utf-8") for name, text in out.items()}
    built |= sheet.files(review, site, _single("handout"))
    return dict(sorted(built.items()))


def _winter(first: Front, review: Review, ticks: bool) -> dict[str, Any]:
    """What the first page's template prints."""
    care = Care()
    season = of_drawing(first.season) if first.season is not None else None
    sketches = (first.effects, first.weeks, first.kilogram)
    said = [one.caution for one in (*first.safety, *review.counsel.told)]
    said += [one.caution for one in (*first.answers, *first.folded)]
    said += [step.caution for step in review.counsel.plan]
    said += [line.caution for line in review.counsel.deadlines]
    return {
        "page": Single(
            slug="index",
            nav=NAMES["index"],
            script=season is not None and season.slider,
            cautions=cautions_of(said),
        ),
        "front": first,
        "safety": counsel_views.told(first.safety, care),
        "answers": counsel_views.answers(first.answers, care),
        "folded": counsel_views.answers(first.folded, care),
        "season": season,
        "sketches": tuple(_marked(sketch) for sketch in sketches if sketch is not None),
        "deadlines": counsel_views.deadlines(first.deadlines),
        "as_of": day(review.season.last_day, year=True),
        "ticks": ticks,
        "winter": There.of(review.readings).season,
    }


def _marked(sketch: Sketch) -> dict[str, Any]:
    """The sketch with its pictures as marks of our own pen."""
    plain = {name: getattr(sketch, name) for name in ("uid", "title", "subtitle", "sure", "page", "link")}
    return plain | {"wide": Markup(sketch.wide), "tall": Markup(sketch.tall)}


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
    says = {one.slug: in_brief(one.headline) if one.answers else one.headline for one in pages} | SAYS
    nav = tuple(
        NavItem(slug=slug, title=name, answers=answers.get(slug, True), says=says.get(slug, ""))
        for slug, name in NAMES.items()
    )
    season = review.season
    winter = There.of(review.readings).season
    runs = ", so far" if season.so_far else ""
    footer = (
        f"One house, one {winter}: {day(season.first_day, year=True)} to {day(season.last_day, year=True)}{runs}. "
        "What held here need not hold elsewhere. Local codes and licensed trades come first. "
        "Every number can be worked out again from the files in the folder data."
    )
    return SiteView(
        title=season.heading,
        style=Markup(style),  # our own file and palette
        script=Markup(script),
        policy=resources.policy(style, script),
        nav=nav,
        ribbon=Markup(_ribbon(review)),
        footer=footer,
    )


def _ribbon(review: Review) -> str:
    """The season's thin lines at the head of every page, with their ends named; '' without a crop logger."""
    drawn = ribbon_of(review)
    if not drawn:
        return ""
    season = review.season
    both = "inside, thinner outdoors" if review.weather.coldest_c is not None else "inside"
    words = (day(season.first_day), f"coldest of each night: {both}", day(season.last_day))
    return f'<div class="ribbon" aria-hidden="true">{drawn}<p>{"".join(f"<span>{w}</span>" for w in words)}</p></div>'


def _render(template: str, **context: Any) -> str:
    return resources.environment().get_template(template).render(**context)
