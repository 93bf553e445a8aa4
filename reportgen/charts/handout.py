"""The handout: one printed page and one picture that stand alone, for people who have not seen the rest."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from reportgen.charts.place import sentences, shorten
from reportgen.charts.types import Drawing, Page
from reportgen.counsel import cautions
from reportgen.counsel.ranking import weightiest
from reportgen.counsel.types import Finding
from reportgen.measures.record_words import measure_name
from reportgen.measures.there import There
from reportgen.review import Review
from reportgen.season.models import Season
from reportgen.wording import NBSP, Wording, day, number

PICTURES = 3
TALLEST = 0.85  # height over width of a narrow chart that still fits beside its words
MOST = 200  # characters of one paragraph, so that the page stays one page
NAME = 32  # … of the name of a logger or heater
NO_LOGGER = (
    "A thermometer that keeps the lowest and the highest, in shade at plant height: read and reset it each morning. "
    "Write the date of everything you change, and change one thing at a time. Weigh what you pick. "
    "That already tells how close it came and what it gave (common practice, no source)."
)


@dataclass(frozen=True, kw_only=True, slots=True)
class Shown:
    """One of the three: a finding beside the chart it rests on."""

    finding: Finding
    claim: str
    evidence: str
    next_step: str
    drawing: Drawing


@dataclass(frozen=True, kw_only=True, slots=True)
class Handout:
    """All of the handout."""

    title: str
    lead: str
    shown: tuple[Shown, ...]
    more: tuple[str, ...]  # further claims, where no chart goes with them
    kit: str
    no_logger: str
    cautions: tuple[str, ...]
    closing: str


def handout(review: Review, pages: Sequence[Page]) -> Handout:
    """The handout of this review."""
    season = review.season
    shown = _shown(review, pages)
    used = {one.finding.slug for one in shown}
    more = [f for f in weightiest(review.findings, 6) if f.slug not in used]
    span = f"{day(season.first_day, year=True)} to {day(season.last_day, year=True)}"
    winter = There.of(review.readings).season
    return Handout(
        title=shorten(season.title, 90),
        lead=f"What one {winter} of readings showed, {span}.",
        shown=shown,
        more=tuple(shorten(f.claim, MOST) for f in more[: PICTURES + 1 - len(shown)]),
        kit=_kit(review),
        no_logger=NO_LOGGER,
        cautions=_cautions(season),
        closing=f"One house, one {winter}: what held here need not hold elsewhere. {cautions.LOCAL}",
    )


def _shown(review: Review, pages: Sequence[Page]) -> tuple[Shown, ...]:
    """The weightiest findings that rest on a chart fit for grey paper: no chart twice, first of different pages."""
    drawings = {b.uid: b for one in pages for b in one.blocks if isinstance(b, Drawing) and _fits(b)}
    able = [f for f in review.findings if f.anchor in drawings]
    chosen: list[Finding] = []
    for apart in (True, False):
        for finding in able:
            taken = {f.anchor for f in chosen}
            if len(chosen) == PICTURES or finding.anchor in taken:
                continue
            if apart and finding.page in {f.page for f in chosen}:
                continue
            chosen.append(finding)
    return tuple(
        Shown(
            finding=f,
            claim=shorten(f.claim, MOST),
            evidence=sentences(f.evidence, MOST),
            next_step=sentences(f.next_step, MOST),
            drawing=drawings[f.anchor],
        )
        for f in sorted(chosen, key=review.findings.index)
    )


def _fits(drawing: Drawing) -> bool:
    """Low enough for a third of a page, and without colour classes, which grey paper cannot tell apart."""
    if isinstance(drawing.narrow, str):
        return False
    spec = drawing.narrow.to_dict()
    pad = spec["padding"]
    tall = spec["height"] + pad["top"] + pad["bottom"]
    wide = spec["width"] + pad["left"] + pad["right"]
    return tall <= TALLEST * wide and "var(--r0)" not in str(spec) and "var(--r6)" not in str(spec)


def _kit(review: Review) -> str:
    """House, loggers and heaters as season.toml names them, no make and no shop."""
    season, w = review.season, Wording.of(review.season)
    parts = [season.house.kind or "a house"]
    if season.house.floor_area_m2:
        parts[0] += f" of {w.area(season.house.floor_area_m2)}"
    if season.house.glazing:
        parts.append(season.house.glazing)
    for logger in season.loggers[:6]:
        measures = [measure_name(c.measure) for c in review.readings.channels if c.logger == logger.name]
        if measures:
            parts.append(f"logger {shorten(logger.name, NAME)} ({', '.join(measures)})")
    for source in season.heating[:4]:
        power = f" of {number(source.rated_power_w)}{NBSP}W" if source.rated_power_w else ""
        parts.append(f"{shorten(source.name, NAME)}{power} ({source.fuel})")
    words = shorten("; ".join(parts) + ".", 420)
    return words[:1].upper() + words[1:]


def _cautions(season: Season) -> tuple[str, ...]:
    """The cautions of this house: fuel, mains, things left alone; snow and sprays for all."""
    fuels = {source.fuel for source in season.heating}
    said = [cautions.FUEL] if fuels - {"electricity"} else []
    if "electricity" in fuels or season.appliances:
        said += [cautions.MAINS]
    all_of_them = (*said, cautions.ALONE, cautions.ROOF, cautions.SPRAY)
    return tuple(words.replace(cautions.LOCAL, "").strip() for words in all_of_them)  # the closing line says it
