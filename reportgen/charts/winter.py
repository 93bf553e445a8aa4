"""The pictures of the first page: the season on one axis of time, the effects, the kilogram, the weeks."""

from __future__ import annotations

from dataclasses import dataclass, replace

from reportgen.charts.coldest import coldest_by_night
from reportgen.charts.effects_view import effects_view, in_words
from reportgen.charts.front_words import SHOWN
from reportgen.charts.kilogram_view import kilogram_view
from reportgen.charts.season_notes import AT_HOLD_K, held_run
from reportgen.charts.season_view import by_day, season_view
from reportgen.charts.types import Drawing
from reportgen.charts.weeks_view import weeks_view
from reportgen.counsel.brief import begun
from reportgen.counsel.facts import Facts
from reportgen.counsel.grounds import Told
from reportgen.counsel.said_balance import total_money, total_words, weeks_words
from reportgen.drawing.effects import effects_tall, effects_wide
from reportgen.drawing.kilogram import kilogram
from reportgen.drawing.season_tall import season_tall
from reportgen.drawing.season_wide import season_wide
from reportgen.drawing.weeks import weeks_tall, weeks_wide
from reportgen.measures.there import There
from reportgen.review import Review
from reportgen.wording import NBSP, Wording, number

DIARY = "Dotted: diary; ● helped, ■ the opposite, ○ cannot tell"


@dataclass(frozen=True, kw_only=True, slots=True)
class Sketch:
    """A picture of the pen in both widths whose figures stand in a table of another page."""

    uid: str
    title: str
    subtitle: str
    wide: str
    tall: str
    sure: str
    page: str  # where its table is
    link: str


def season_drawing(review: Review) -> Drawing | None:
    """The picture that carries the first page; None where no air temperature was logged."""
    frame = coldest_by_night(review)
    if frame is None:
        return None
    view, w = season_view(review, "winter_season"), Wording.of(review.season)
    unit = w.temp_unit
    return Drawing(
        uid="winter_season",
        title=_season_title(review, w),
        subtitle=DIARY if view.lines else "Coldest air of every night, and what else was logged, on one line of time",
        label=view.label,
        description=view.description,
        wide=season_wide(view),
        narrow=season_tall(view),
        table=frame.rename(
            columns={"date": "night of", "inside": f"coldest inside, {unit}", "outdoors": f"coldest outdoors, {unit}"}
        ),
        sure=_event_words(review),
        day_slider=True,
    )


def _season_title(review: Review, w: Wording) -> str:
    """How warm it was held, and how cold it was outdoors."""
    season, outside = There.of(review.readings).season, review.weather.coldest_c
    held = _held(review, w)
    inside = f", held near {held}" if held else ", night by night"
    cold = f", {w.temp(outside, 0)} outdoors at the coldest" if outside is not None else ""
    return f"One {season}{inside}{cold}"


def _held(review: Review, w: Wording) -> str:
    """What was held, as the picture says it; where the whole season's heat speaks for another warmth, nothing."""
    found = review.heat.hold_found_c
    if found is None:
        return ""
    run = held_run(review, w, by_day(review, "inside_min", w))
    if run is None:
        return w.temp(found, 0) if len({c for _, c in review.heat.holds}) < 2 else ""
    near = abs(w.temp_value(found) - run[0]) <= w.diff_value(AT_HOLD_K)
    return f"{number(run[0])}{NBSP}{w.temp_unit}" if near else ""


def effects_sketch(review: Review) -> Sketch | None:
    """Every change that a logger can judge; None where the diary holds none, or none has an estimate to draw."""
    view = effects_view(review, "winter_effects")
    if view is None or all(row.doubt is None for group in view.groups for row in group.rows):
        return None
    folded = replace(view, most=0)  # each refused row stands on Changes
    return Sketch(
        uid="winter_effects",
        title=f"Of what we changed, {in_words(view)}",
        subtitle="The one thing hoped for, the weather taken out; darkest where it likely lies, "
        f"95{NBSP}% sure inside the pale ends",
        wide=effects_wide(folded),
        tall=effects_tall(folded),
        sure=_lever_words(review),
        page="changes",
        link="Each change, its nights and what else it moved",
    )


def kilogram_sketch(review: Review) -> Sketch | None:
    """What a kilogram cost, beside the shop; None without a harvest or its money."""
    view, w = kilogram_view(review, "winter_kilogram"), Wording.of(review.season)
    if view is None:
        return None
    return Sketch(
        uid="winter_kilogram",
        title=view.description.rstrip("."),
        subtitle=f"Money for one {'pound' if w.us else 'kilogram'}, mean of {w.mass(review.harvest.kg or 0.0)} picked",
        wide=kilogram(view),
        tall=kilogram(view, 360, 12.5, "tall"),
        sure=_in_all(review, w),
        page="harvest",
        link="Harvest and what it cost",
    )


def _in_all(review: Review, w: Wording) -> str:
    """Which weeks were worth heating, where that was judged; else the parts of the sum, which add up to it."""
    balance, told = review.counsel.grounds.balance, _told(review, "weeks")
    if told is not None and any(week.needed_share is not None for week in balance.weeks):
        return f"{begun(weeks_words(balance, Facts.of(review)))}."
    words = total_words(balance, w)
    return f"{total_money(balance, w)} in all: {words}." if words and balance.total is not None else ""


def _lever_words(review: Review) -> str:
    """The lever that is told first; nothing where one of the first answers tells it."""
    told = _told(review, "lever")
    answered = {answer.about for answer in review.counsel.answers[:SHOWN]}
    return told.words if told is not None and told.lever not in answered else ""


def weeks_sketch(review: Review) -> Sketch | None:
    """Which weeks were worth heating; None where no week has a price or none could be judged (Harvest has them all)."""
    view = weeks_view(review, review.counsel.grounds.balance, "winter_weeks")
    told = _told(review, "weeks")
    if view is None or told is None or not any(week.needed is not None for week in view.weeks):
        return None
    return Sketch(
        uid="winter_weeks",
        title=told.clause,
        subtitle="Up: heat money of each week; down: what was picked in it and the four weeks after, at shop prices",
        wide=weeks_wide(view),
        tall=weeks_tall(view),
        sure=told.words,
        page="harvest",
        link="",
    )


def _told(review: Review, subject: str) -> Told | None:
    return next((one for one in review.counsel.told if one.subject == subject), None)


def _event_words(review: Review) -> str:
    """The worst event without its first words, which are the heading's."""
    told = _told(review, "event")
    if told is None:
        return ""
    rest = told.words.removeprefix(told.clause).lstrip("; ")
    return begun(rest) if len(rest) > len(".") else told.words
