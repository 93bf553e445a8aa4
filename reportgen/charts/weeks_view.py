"""What the picture of the weeks is told of the balance: heat money, the share a crop needed, and what it was worth."""

from __future__ import annotations

from datetime import date, timedelta

from reportgen.charts.place import nice_ticks, tick_words
from reportgen.charts.season_view import dark_spans
from reportgen.charts.timeline import brief_day, days_of, divisions
from reportgen.counsel.grounds import Balance, BalanceWeek
from reportgen.drawing.axis import Tick
from reportgen.drawing.weeks import Week, Weeks
from reportgen.review import Review
from reportgen.wording import Wording, number


def weeks_view(review: Review, balance: Balance, uid: str = "weeks") -> Weeks | None:
    """Weeks with heat money; None where no week has any."""
    w, season = Wording.of(review.season), review.season
    total = days_of(season.first_day, season.last_day)
    weeks = tuple(week for week in (_week(b, season.first_day, total, w) for b in balance.weeks) if week is not None)
    if not any(week.heat for week in weeks) or not w.currency:
        return None
    top = max(max(week.heat or 0.0, week.value or 0.0) for week in weeks)
    ticks = [t for t in nice_ticks(0.0, top, 6) if t >= 0]
    heat = sum(week.heat or 0.0 for week in weeks)
    known = [week for week in weeks if week.needed is not None]
    idle = sum((week.heat or 0.0) * (1 - (week.needed or 0.0)) for week in known)
    valued = any(week.value for week in weeks)
    return Weeks(
        uid=uid,
        label="Heat money of each week, above the worth of what was picked in it and the four weeks after",
        description=_description(weeks, heat, idle, bool(known), w, season.first_day),
        days=total,
        divisions=divisions(season.first_day, season.last_day),
        weeks=weeks,
        ticks=tuple(Tick(t, words) for t, words in zip(ticks, tick_words(ticks), strict=True)),
        heat_words=(f"Heat, {w.currency} a week",),
        needed_word="kept crops that needed it" if known else "",
        idle_word="kept none that needed it" if idle > 0 else "",
        value_words=(
            f"Picked, worth {w.currency}" if valued else "Picked: no shop price",
            f"that week and four more{f'; in {w.mass_unit}' if any(week.said for week in weeks) else ''}",
        ),
        dark=dark_spans(review),
    )


def _week(b: BalanceWeek, first: date, total: int, w: Wording) -> Week | None:
    monday = b.monday or date.fromisocalendar(int(b.week[:4]), int(b.week[-2:]), 1)
    start = (monday - first).days
    a, z = max(start, 0), min(start + 7, total)
    if z <= a:
        return None
    return Week(first=a, last=z, heat=b.heat_money, needed=b.needed_share, value=b.value, said=_weight(b.kg, w))


def _weight(kg: float | None, w: Wording) -> str:
    """8.2, 11: from ten on whole, so that the tallest bars have room for theirs; nothing picked, no word."""
    if not kg:
        return ""
    mass = w.mass_value(kg)
    return number(mass, 0 if mass >= 9.95 else 1)


def _description(weeks: tuple[Week, ...], heat: float, idle: float, known: bool, w: Wording, first: date) -> str:
    dearest = max(weeks, key=lambda week: week.heat or 0.0)
    when = brief_day(first + timedelta(days=dearest.first))
    parts = [f"Heat cost {w.money(heat, 0)}, most in the week of {when}: {w.money(dearest.heat or 0.0, 0)}."]
    if known:
        parts.append(f"{w.money(idle, 0)} of it kept no crop that needed it.")
    return " ".join(parts)
