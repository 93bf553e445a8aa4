"""The group's site: every page, table and picture in memory, then put in place in one step."""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

from markupsafe import Markup

from reportgen.charts.types import Drawing, Table
from reportgen.drawing.widths import shorten
from reportgen.gather.pages import (
    NAMES,
    SUBJECTS,
    chat,
    damp,
    frost,
    harvest,
    heat,
    houses,
    method,
    record,
    things,
    years,
)
from reportgen.gather.pages import sheet as sheets
from reportgen.gather.pages.index import Front, front
from reportgen.gather.pages.plan import frame
from reportgen.gather.pages.told import Told, told_of
from reportgen.gather.pages.types import GroupPage
from reportgen.gather.pages.views import of_page
from reportgen.gather.pages.words import houses as so_many
from reportgen.gather.pages.words import name_of, plain_text, plain_words
from reportgen.gather.types import Group
from reportgen.plain import plain
from reportgen.site import resources
from reportgen.site.care import cautions_of
from reportgen.site.publish import publish
from reportgen.site.render import Single
from reportgen.site.tables import csv_text
from reportgen.site.text import safe_html
from reportgen.site.views import NavItem, SiteView, of_drawing, of_table
from reportgen.wording import count, day

Tell = Callable[[str], None]
BUILDERS: dict[str, Callable[[Told], GroupPage]] = {
    "things": things.page,
    "frost": frost.page,
    "heat": heat.page,
    "damp": damp.page,
    "harvest": harvest.page,
    "houses": houses.page,
    "years": years.page,
    "record": record.page,
}
SAYS = {
    "index": "What we learnt, and what to try together",
    "method": "How the houses were put together, and where it ends",
    "handout": "One printed page, and one picture for the group",
}
TITLE = "Our greenhouses together"
TITLE_ROOM = 640.0  # units at 14 a letter: one line of the page


def write_group(group: Group, out: Path, tell: Tell) -> None:
    """Writes the group's site beside `out` and exchanges it for what stood there.

    Raises:
        PublishError: `out` holds what this tool did not write, or the disk refused; the old site stands.
    """
    publish(files(group, tell), out)


def files(group: Group, tell: Tell) -> dict[str, bytes]:
    """Every file of the site by its path in it."""
    told = told_of(group)
    pages = []
    for slug in SUBJECTS:
        tell(f"drawing {NAMES[slug]}")
        pages.append(BUILDERS[slug](told))
    first = front(told)
    site = _site(told, pages)
    out = {f"{page.slug}.html": _render("page.html", site=site, page=of_page(page)) for page in pages}
    out["index.html"] = _index(told, first, site)
    out["method.html"] = _render(
        "group_method.html", site=site.styled(resources.method_style()), page=_single("method", method.CAUTIONS),
        headline=method.HEADLINE, methods=method.METHODS, words=method.WORDS, names=NAMES,
    )  # fmt: skip
    tell("drawing the handout")
    sheet = sheets.sheet(told, first, site.title)
    out["handout.html"] = _handout(sheet, site)
    out["handout.txt"] = sheets.text(sheet)
    out |= _data(told, pages, first)
    built = {name: words.encode("utf-8") for name, words in out.items()}
    built["handout.png"] = chat.png(sheet)
    return dict(sorted(built.items()))


def _index(told: Told, first: Front, site: SiteView) -> str:
    picture = first.picture or first.beside
    return _render(
        "group.html",
        site=site,
        page=_single("index", first.cautions),
        front=first,
        picture=of_drawing(picture) if picture is not None else None,
        table=of_table(first.table) if first.table is not None else None,
        story=safe_html(plain_text(told.group.story)) if told.group.story else None,
    )


def _handout(sheet: sheets.Sheet, site: SiteView) -> str:
    own = site.styled(resources.sheet_style())
    return _render("group_handout.html", site=own, page=_single("handout"), sheet=sheet,
                   flat=Markup(sheet.flat), tall=Markup(sheet.tall))  # fmt: skip


def _single(slug: str, cautions: Sequence[str] = ()) -> Single:
    return Single(slug=slug, nav=NAMES[slug], cautions=cautions_of(cautions))


def _site(told: Told, pages: Sequence[GroupPage]) -> SiteView:
    style, script = resources.style(), resources.script()
    answers = {page.slug: page.answers for page in pages}
    says = {page.slug: page.says or page.headline for page in pages} | SAYS
    nav = tuple(
        NavItem(slug=slug, title=name, answers=answers.get(slug, True), says=says[slug]) for slug, name in NAMES.items()
    )
    return SiteView(
        title=shorten(plain_words(told.group.title), 14, TITLE_ROOM) or TITLE,
        style=Markup(style),  # our own files
        script=Markup(script),
        policy=resources.policy(style, script),
        nav=nav,
        ribbon=Markup(""),
        footer=_footer(told),
    )


def _footer(told: Told) -> str:
    every = [winter for house in told.group.houses for winter in house.winters]
    first: date = min(winter.first_day for winter in every)
    last: date = max(winter.last_day for winter in every)
    mark = told.group.mark
    ours = f" {name_of(mark)} is marked by ◆ and “your house”." if mark is not None and mark in told.houses else ""
    return (
        f"{so_many(len(told.group.houses))}, {count(told.winters, 'winter')}: {day(first, year=True)} to "
        f"{day(last, year=True)}.{ours} What held in these houses need not hold in the next. Local codes and licensed "
        "trades come first. Every number can be worked out again from the files in the folder data."
    )


def _data(told: Told, pages: Sequence[GroupPage], first: Front) -> dict[str, str]:
    """data/group.json and a CSV a picture or table."""
    out = {"data/group.json": json.dumps(document_of(told), ensure_ascii=False, allow_nan=False) + "\n"}
    blocks = [block for page in pages for block in (page.picture, *page.blocks, *page.rest)]
    for block in (*blocks, first.picture, first.beside, first.table):
        if isinstance(block, Drawing | Table):
            out[f"data/{block.uid}.csv"] = csv_text(block.table if isinstance(block, Drawing) else block.data)
    if told.group.alike:
        out["data/alike.toml"] = "\n\n".join(told.group.alike) + "\n"
    if first.plan.turns:
        out["data/together.csv"] = csv_text(frame(first.plan))
    return out


def document_of(told: Told) -> dict[str, Any]:
    """The group as plain values; the hashes by which houses are known stay out, they could tie groups together, and so
    do the diaries line by line: what counts of them stands under `things`."""
    group = told.group
    bare = tuple(
        replace(house, winters=tuple(replace(winter, house_id=None, lines=(), levers=()) for winter in house.winters))
        for house in group.houses
    )
    document: dict[str, Any] = {"format": 1, **plain(replace(group, houses=bare))}
    for house in document["houses"]:
        for winter in house["winters"]:
            del winter["lines"], winter["levers"]
    document["together"] = [
        {
            "thing": one.thing.name,
            "outcome": one.stratum.outcome,
            "unit": one.stratum.unit,
            "heated": one.stratum.heated,
            "said": plain(one.pooled),
            "verdict": one.verdict,
        }
        for one in told.said
    ]
    return document


def _render(template: str, **context: Any) -> str:
    return resources.environment().get_template(template).render(**context)
