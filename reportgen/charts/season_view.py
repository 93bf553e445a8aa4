"""What the season picture is told of a review: the diary's lines with their verdicts, nights, damp, heat, harvest."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from datetime import date, timedelta

from reportgen.charts.look import UNIT
from reportgen.charts.season_notes import night_notes
from reportgen.charts.timeline import brief_day, days_of, divisions
from reportgen.counsel.brief import short
from reportgen.drawing.axis import Axis, outward
from reportgen.drawing.ink import Mark, Token
from reportgen.drawing.season_types import Bar, Damp, Line, Nights, Season, Source, Stacked, named
from reportgen.effects import Effect
from reportgen.effects.types import Verdict
from reportgen.measures.frost_limit import evening
from reportgen.measures.heat_types import Heat
from reportgen.measures.light_daily import TEN_HOURS
from reportgen.review import Review
from reportgen.wording import NBSP, Wording, count, number, share_of

Said = tuple[Mark, str]
SAID: dict[str, Said] = {
    "helped": ("helped", "helped"),
    "hurt": ("opposite", "the opposite"),
    "no sign": ("open", "no sign"),
    "cannot tell": ("open", "cannot tell"),
    "not judged": ("none", "not judged"),
}
SAME = 0.05  # degrees: closer ones are printed alike
TOLD_UNDER_HEAT: Said = ("none", "told under Heat")  # a heater is no lever for warmth
TURNED: dict[Verdict, Verdict] = {"helped": "hurt", "hurt": "helped"}
TOKENS: tuple[tuple[Token, bool], ...] = (("warm", False), ("warm", True), ("sun", False), ("soil", False))
MOST_WORDS, CUT_TO, LETTERS = 8, 6, 60  # of a diary line beside its mark; all of it stands on Changes


def said_of(review: Review) -> Callable[[Effect], Said]:
    """Mark and word of each line's verdict: that of its lever, turned round where the line takes the lever back."""

    def said(effect: Effect) -> Said:
        lever = review.counsel.grounds.lever_of(effect.line)
        pooled = next((one for one in review.effects.levers if effect.line in one.lines), None)
        if lever is None or pooled is None:
            return SAID[effect.verdict]
        if lever.verdict == "not judged" and pooled.declared is not None:
            return TOLD_UNDER_HEAT
        verdict = pooled.verdict
        if any(effect.line in one.undone for one in review.readings.levers):
            verdict = TURNED.get(verdict, verdict)
        return SAID[verdict]

    return said


def season_view(review: Review, uid: str = "season") -> Season:
    """The whole winter."""
    season, w, said = review.season, Wording.of(review.season), said_of(review)
    lines, rest = named(diary_lines(review, said))
    first, days = season.first_day, days_of(season.first_day, season.last_day)
    dark = dark_spans(review)
    under = f"under ten hours of daylight: {count(sum(b - a for a, b in dark), 'day')}"
    return Season(
        uid=uid,
        label="The whole winter on one line of time: the diary, the nights, damp, heat and harvest",
        description=_description(review, w),
        days=days,
        divisions=divisions(first, season.last_day),
        nights=nights_view(review, w),
        lines=lines,
        ticks=rest,
        more=f"and {number(len(rest))} more, marked by ticks" if rest else "",
        damp=_damp(review, w),
        heat=_heat(review, w),
        picked=_picked(review, w),
        dark=dark,
        dark_words=under,
        dark_brief=f"Grey: {under}",
    )


def diary_lines(review: Review, said: Callable[[Effect], Said]) -> list[Line]:
    """Changes and spells of the season; a thing switched more than once stands once."""
    first, last = review.season.first_day, review.season.last_day
    out: list[Line] = []
    for effect in review.effects.changes:
        if effect.kind not in ("change", "spell") or not first <= effect.when <= last:
            continue
        times = f" ({number(len(effect.switches))}{NBSP}times)" if len(effect.switches) > 1 else ""
        mark, verdict = said(effect)
        day = (effect.when - first).days
        out.append(
            Line(
                day=day,
                when=brief_day(effect.when),
                words=_line_words(effect.what) + times,
                mark=mark,
                verdict=verdict,
            )
        )
    return out


def _line_words(text: str) -> str:
    """A diary line as it is, a long one in its first words; a number stays with its unit."""
    whole = UNIT.sub(NBSP, text)
    return whole if len(text.split()) <= MOST_WORDS and len(text) <= LETTERS else short(whole, CUT_TO, LETTERS)


def degrees_axis(values: Iterable[float | None], w: Wording, line_c: float) -> Axis:
    """An axis of temperatures outward to 5 °C or 10 °F, the frost line heavy."""
    return outward(values, 10.0 if w.us else 5.0, lambda v: f"{number(v)}°", w.temp_value(line_c))


def by_day(review: Review, column: str, w: Wording) -> tuple[float | None, ...]:
    """A temperature of the nights' table for each day of the season, None where not known; () where never known."""
    table, first = review.frost.table, review.season.first_day
    if column not in table or table[column].isna().all():
        return ()
    known = {night: float(v) for night, v in zip(table.index, table[column], strict=True) if math.isfinite(v)}
    days = (first + timedelta(days=n) for n in range(days_of(first, review.season.last_day)))
    return tuple(w.temp_value(known[day]) if day in known else None for day in days)


def nights_view(review: Review, w: Wording) -> Nights | None:
    """Coldest air of each night inside and outdoors; None without a crop logger."""
    inside, outdoors = by_day(review, "inside_min", w), by_day(review, "outdoor_min", w)
    if not inside:
        return None
    axis = degrees_axis((*inside, *outdoors), w, review.frost.line_c)
    line = w.temp_value(review.frost.line_c)
    both = bool(outdoors)
    return Nights(
        inside=inside,
        outdoors=outdoors,
        axis=axis,
        notes=night_notes(review, w, inside, outdoors),
        rings=tuple((n, v) for n, v in enumerate(inside) if v is not None and v < line),
        explained=(
            f"coldest of each night,{NBSP}{w.temp_unit}",
            *(("shaded: what sun, bed and heat added",) if both else ()),
        ),
        title=("Coldest of", "each night"),
    )


def dark_spans(review: Review) -> tuple[tuple[int, int], ...]:
    """Stretches of days under ten hours; () where the latitude is not known."""
    if review.light.days_under_ten_hours is None:
        return ()
    out: list[tuple[int, int]] = []
    for n, hours in enumerate(review.light.daily.table["day_length_h"]):
        if not hours < TEN_HOURS:
            continue
        out = [*out[:-1], (out[-1][0], n + 1)] if out and out[-1][1] == n else [*out, (n, n + 1)]
    return tuple(out)


def _damp(review: Review, w: Wording) -> Damp | None:
    d = review.damp
    if not len(d.carpet) or not d.hours_recorded:
        return None
    means = d.carpet.dropna(subset=["value"]).groupby("date")["value"].mean()
    lines = (d.high_pct, (d.high_pct + d.extreme_pct) / 2, d.extreme_pct)
    first = review.season.first_day
    days = [first + timedelta(days=n) for n in range(days_of(first, review.season.last_day))]
    classes = tuple(sum(float(means[day]) >= line for line in lines) if day in means.index else None for day in days)
    share = share_of(d.hours_above_high.estimate / d.hours_recorded)
    return Damp(classes=classes, words=("Damp", f"{share} of hours over {w.percent(d.high_pct)}"))


def _span(review: Review, monday: date, days: int = 7) -> tuple[int, int]:
    first = review.season.first_day
    start = (monday - first).days
    return max(start, 0), min(start + days, days_of(first, review.season.last_day))


def _heat(review: Review, w: Wording) -> Stacked | None:
    h = review.heat
    if h.weeks is None or not h.kwh:
        return None
    daily = days_of(review.season.first_day, review.season.last_day) < 42
    words = (
        "Heat",
        _at_most(w.kwh(h.kwh), h.kwh, h.kwh_low, h.kwh_high),
        ", ".join([*_paid(h, w), "by day" if daily else "by week"]),
    )
    spans: list[tuple[tuple[int, int], tuple[float, ...]]]
    if daily and h.by_day is not None:
        spans = [(_span(review, day, 1), (float(kwh),)) for day, kwh in h.by_day["kwh"].items()]  # type: ignore[arg-type]
        sources: tuple[Source, ...] = (Source(name="heat", token="warm"),)
    else:
        names = [s.name for s in h.sources if s.name in h.weeks and h.weeks[s.name].sum() > 0]
        sources = tuple(_source(n, names) for n in range(min(len(names), len(TOKENS))))
        spans = [(_span(review, monday), _parts(h.weeks.loc[monday], names)) for monday in h.weeks.index]
    bars = tuple(Bar(first=a, last=b, parts=parts) for (a, b), parts in spans if b > a)
    return Stacked(sources=sources, bars=bars, words=words, brief="Heat") if bars and sources else None


def _paid(h: Heat, w: Wording) -> list[str]:
    if h.cost is None or not w.currency:
        return []
    return [_at_most(w.money(h.cost, 0), h.cost, h.cost_low, h.cost_high)]


def _at_most(words: str, value: float, low: float | None, high: float | None) -> str:
    """Up to 455 kWh, where nobody looked what was left of a store: the sum is its upper end."""
    ends = low is not None and high is not None and number(low) != number(value) == number(high)
    return f"up to {words}" if ends else words


def _source(n: int, names: list[str]) -> Source:
    """The n-th source; the last colour takes all that are left."""
    last = n == len(TOKENS) - 1 and len(names) > len(TOKENS)
    return Source(name="other heat" if last else names[n], token=TOKENS[n][0], hatched=TOKENS[n][1])


def _parts(week: object, names: list[str]) -> tuple[float, ...]:
    values = [max(0.0, float(week[name])) for name in names]  # type: ignore[index]
    values = [v if math.isfinite(v) else 0.0 for v in values]
    return (*values[: len(TOKENS) - 1], *([sum(values[len(TOKENS) - 1 :])] if len(values) >= len(TOKENS) else []))


def _picked(review: Review, w: Wording) -> Stacked | None:
    h = review.harvest
    if not h.kg:
        return None
    first, last = review.season.first_day, review.season.last_day
    if days_of(first, last) < 42:
        kept = h.pickings[h.pickings["use"] != "lost"].groupby("date")["kg"].sum()
        spans = [(_span(review, day, 1), float(kg)) for day, kg in kept.items()]  # type: ignore[arg-type]
    else:
        spans = [(_span(review, week.monday), week.kg) for week in h.weeks]
    bars = tuple(Bar(first=a, last=b, parts=(w.mass_value(kg),)) for (a, b), kg in spans if b > a and kg > 0)
    words = ("Picked", w.mass(h.kg))
    return Stacked(sources=(Source(name="picked", token="target"),), bars=bars, words=words, brief="Picked")


def _not_drawn(review: Review, w: Wording) -> str:
    """Why the picture's coldest night is not the coldest moment: that one lay in none of the nights drawn."""
    lowest, at = review.frost.minimum.temperature_c, review.frost.minimum.at
    drawn = [v for v in by_day(review, "inside_min", w) if v is not None]
    if lowest is None or at is None or not drawn or min(drawn) - w.temp_value(lowest) < SAME:
        return ""
    return ", before the first night drawn" if evening(at) < review.season.first_day else ", in no night drawn"


def _description(review: Review, w: Wording) -> str:
    """What the picture says, in numbers, in at most 60 words."""
    f = review.frost
    parts = [f"{count(days_of(review.season.first_day, review.season.last_day), 'night')}."]
    if f.minimum.temperature_c is not None and f.minimum.at is not None:
        below = count(f.nights_below["0"].estimate, "night")
        parts.append(
            f"Coldest inside {w.temp(f.minimum.temperature_c)} on {brief_day(f.minimum.at)}{_not_drawn(review, w)}; "
            f"{below} below {w.temp(f.line_c, 0)}."
        )
    outdoors = [v for v in by_day(review, "outdoor_min", w) if v is not None]
    if outdoors:
        parts.append(f"Outdoors down to {number(min(outdoors), 1)}{NBSP}{w.temp_unit}.")
    h = review.heat
    if h.kwh:
        parts.append(f"Heat {_at_most(w.kwh(h.kwh), h.kwh, h.kwh_low, h.kwh_high)}.")
    if review.harvest.kg:
        parts.append(f"Picked {w.mass(review.harvest.kg)}.")
    return " ".join(parts)
