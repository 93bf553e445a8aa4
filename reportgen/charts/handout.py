"""The handout: one printed sheet that stands alone, for people who have not seen the rest. The picture for a group
chat and its words are made of the same parts, so that none of them says anything else."""

from __future__ import annotations

from dataclasses import dataclass, replace

from reportgen.charts import handout_words as say
from reportgen.charts.effects_view import effects_view
from reportgen.charts.handout_fit import LEVELS, fits
from reportgen.charts.handout_parts import Changes, Handout, Kilogram, Level, SeasonPicture
from reportgen.charts.kilogram_view import kilogram_view
from reportgen.charts.season_view import season_view
from reportgen.drawing.effects import Effects, Row, effects_flat, effects_tall, ordered
from reportgen.drawing.kilogram import kilogram
from reportgen.drawing.season_tall import season_tall
from reportgen.drawing.season_types import Season
from reportgen.drawing.season_wide import HANDOUT, season_wide
from reportgen.measures.there import There
from reportgen.review import Review
from reportgen.wording import number

COLUMN, SIZE = 240.0, 13.0  # of the kilogram's picture, which stands in a column
LOW = replace(HANDOUT, nights=80, heat=28, picked=24)  # the season's picture where the sheet is full


@dataclass(frozen=True, kw_only=True, slots=True)
class Views:
    """What the pictures are told: the sheet and the chat picture draw the same."""

    season: Season | None
    effects: Effects | None
    rows: tuple[Row, ...]  # judged ones, in the order in which they are drawn
    refused: tuple[Row, ...]


def views(review: Review) -> Views:
    """What there is to draw; a season without any band is not drawn."""
    season = season_view(review, "sheet-season")
    bands = (season.nights, season.damp, season.heat, season.picked)
    effects = effects_view(review, "sheet-effects")
    rows = [row for group in effects.groups for row in ordered(group.rows)] if effects is not None else []
    return Views(
        season=season if any(band is not None for band in bands) else None,
        effects=effects,
        rows=tuple(row for row in rows if row.doubt is not None),
        refused=tuple(row for row in rows if row.doubt is None),
    )


def handout(review: Review, seen: Views | None = None) -> Handout:
    """The fullest form of the sheet that still is one page, on A4 and on Letter, in the widest font."""
    seen = seen or views(review)
    high = _season(review, seen, low=False)
    lower = _season(review, seen, low=True)
    season = {False: high, True: replace(lower, tall=high.tall) if high and lower else None}
    for level in LEVELS:
        made = _made(review, seen, level, season[level.low])
        if fits(made):
            return made
    return made


def _made(review: Review, seen: Views, level: Level, season: SeasonPicture | None) -> Handout:
    winter = There.of(review.readings).season
    return Handout(
        title=review.season.heading,
        clauses=say.clauses_of(review)[: level.clauses],
        safety=say.safety_of(review),
        answers=say.answers_of(review),
        season=season,
        changes=_changes(seen, level),
        kilogram=_kilogram(review),
        plan_title=f"This {winter} and next" if review.season.so_far else f"Next {winter}",
        plan=say.plan_of(review, dates=level.dates),
        how=say.how_of(review) if level.notes else (),
        care=say.care_of(review) if level.full else say.care_short(review),
        closing=f"One house, one {winter}: what held here need not hold elsewhere.",
        level=level,
    )


def _season(review: Review, seen: Views, low: bool) -> SeasonPicture | None:
    view = seen.season
    if view is None:
        return None
    return SeasonPicture(
        title=say.season_title(review, view),
        sub=say.season_sub(view),
        wide=season_wide(replace(view, dark_words=""), LOW if low else HANDOUT),
        tall="" if low else season_tall(view),
        description=view.description,
    )


def _changes(seen: Views, level: Level) -> Changes | None:
    if seen.effects is None:
        return None
    shown, rest = seen.rows[: level.rows], len(seen.rows) - level.rows
    more = f"{number(rest)} more judged." if rest > 0 else ""
    known = tuple(
        replace(group, rows=tuple(row for row in group.rows if row.doubt is not None)) for group in seen.effects.groups
    )
    drawn = replace(seen.effects, groups=tuple(group for group in known if group.rows), folded="")
    return Changes(
        title=say.changes_title(seen.effects),
        sub=say.DOUBT if shown else "",
        refused=" ".join(part for part in (more, say.refused_words(seen.refused)) if part),
        rows=shown,
        flat=effects_flat(drawn, level.rows) if shown else "",
        tall=effects_tall(drawn) if shown else "",
    )


def _kilogram(review: Review) -> Kilogram | None:
    view = kilogram_view(review, "sheet-kilogram")
    if view is None:
        return None
    bars = tuple(replace(bar, name=_own(bar.brief or bar.name), brief="") for bar in view.bars)
    return Kilogram(
        title=say.kilogram_title(review, view),
        note=say.kilogram_note(review),
        svg=kilogram(replace(view, bars=bars), COLUMN, SIZE, "flat"),
        description=view.description,
    )


def _own(name: str) -> str:
    """From our glasshouse: in a column there is room for "Our glasshouse"."""
    bare = name.removeprefix("From ")
    return bare[:1].upper() + bare[1:]
