"""Answers about a subject: the hold, frost, damp, money, light, soil."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from reportgen.counsel import cautions
from reportgen.counsel.bills import degree_spares
from reportgen.counsel.brief import begun, cut, fitted, short
from reportgen.counsel.facts import Facts
from reportgen.counsel.grounds import HEAT_FAILED, HEAT_OUT, TOO_COLD, Answer, Event, Grounds, HoldAdvice
from reportgen.counsel.heat import rated_heat_w
from reportgen.counsel.heat_words import watts
from reportgen.counsel.said_balance import (
    heated_weeks,
    missing_words,
    needed_weeks,
    per_kg_words,
    total_money,
    total_words,
    weeks_words,
)
from reportgen.counsel.said_events import cause_words, clause, lag_words, losses
from reportgen.counsel.sides import ends_of_money
from reportgen.counsel.surely import COUNTED, by_level
from reportgen.counsel.whole import gaps_in
from reportgen.wording import ALL, Wording, are, count, day, listed, number, of_all, share_words

WHY_WORDS, CAUSES = 25, 3


def about_topic(ask: str, topic: str, facts: Facts, on: Grounds) -> Answer:
    """The subject's sentence."""
    return _TOPICS[topic](ask, facts, on)


def answer(ask: str, about: str, word: str, why: str, sure: str, page: str, caution: str | None = None) -> Answer:
    """One answer, its reason begun as a sentence and within its words."""
    return Answer(
        ask=ask, about=about, answer=word, why=begun(cut(why, WHY_WORDS)), sure=sure, page=page, caution=caution
    )


def _hold(ask: str, facts: Facts, on: Grounds) -> Answer:
    """May it be held cooler: never more than the coldest such night allows, and only perhaps where a limit is open."""
    advice, w = on.hold_advice, facts.w
    word, sure = hold_word(advice, w)
    parts = (hold_words(advice, w), spares_words(facts, on), _unknown(advice), failure_words(on))
    caution = cautions.heating(facts.fuels) or None if facts.r.season.heating else None
    why = fitted(parts, WHY_WORDS) or advice.reason or "nothing was heated"
    return answer(ask, "hold", word, why, sure, "heat", caution if word != "Cannot tell" else None)


def hold_word(advice: HoldAdvice, w: Wording) -> tuple[str, str]:
    """The word on holding it cooler, and how sure."""
    sure = f"Nine in ten: the coldest of {count(advice.nights, 'night')} and a degree to spare."
    if advice.down_by_k is None:
        return ("Perhaps", "") if advice.unknown_crops else ("Cannot tell", "")
    if advice.down_by_k <= 0:
        return "No", sure
    if advice.unknown_crops:
        return "Perhaps", sure
    return f"Yes, by {w.diff(advice.down_by_k)}", sure


def hold_words(advice: HoldAdvice, w: Wording) -> str:
    """Down by how much, with the usual and the coldest night; or what keeps it where it is."""
    if advice.short_by_k:
        return f"your dial leaves no room: {w.diff(advice.short_by_k)} short"
    if advice.down_by_k is None or advice.down_by_k <= 0 or advice.usually_c is None or advice.coldest_c is None:
        return advice.reason or "" if not advice.unknown_crops else ""
    crop = f" for {short(advice.crop, 2)}" if advice.crop else ""
    return (
        f"{w.diff(advice.down_by_k)} down{crop}: usually {w.temp(advice.usually_c)}, coldest "
        f"{w.temp(advice.coldest_c)} of {count(advice.nights, 'night')}"
    )


def spares_words(facts: Facts, on: Grounds) -> str:
    """What it spares, with the levers that are up now."""
    advice, w = on.hold_advice, facts.w
    most = degree_spares(facts) if w.currency else None
    known = w.currency and advice.saves_money is not None and ends_of_money(advice.saves_money, w)
    if not known and (most is None or advice.down_by_k == 0):
        return ""
    kept = [lv for lv in on.levers if lv.on_now and lv.saves_heat and "keep" in lv.verdict]
    kept = [lv for lv in kept if "thermostat" not in lv.touches]  # the dial is what is asked about, and is not up
    up = list(dict.fromkeys(short(lv.thing or lv.name, 2) for lv in kept))
    with_ = f" with the {listed(up, 2)} up" if up else ""
    return f"spares {known}{with_}" if known else f"a degree down spares less than {w.money(most or 0.0, 0)}{with_}"


def failure_words(on: Grounds) -> str:
    """What to say beside a hold where the heat failed in this season; empty where it did not."""
    failed = any(event.cause in (HEAT_FAILED, HEAT_OUT) for event in on.events)
    return "the failure proves nothing against it" if failed else ""


def _unknown(advice: HoldAdvice) -> str:
    names = list(dict.fromkeys(short(name, 2) for name in advice.unknown_crops))
    return f"{listed(names, 3)} {are(len(names), 'has', 'have')} no known limit" if names else ""


def _frost(ask: str, facts: Facts, on: Grounds) -> Answer:
    """How close it came, by events where there were any."""
    worst = next((e for e in on.events if e.kind in ("frost", "failure") and e.minimum_c is not None), None)
    low, w = facts.number("frost.minimum.temperature_c"), facts.w
    cold = sum(event.kind in ("frost", "failure") for event in on.events)
    if worst is not None:
        lost = losses([worst])
        parts = (
            clause(worst, w),
            _soon(worst),
            _too_small(facts, worst),
            f"it cost {lost}" if lost else "nothing was lost to it",
        )
        why = fitted(parts, WHY_WORDS)
        return answer(ask, "frost", f"Frost came in {_how_often(facts, cold)}", why, COUNTED, "frost")
    if low is None:
        return answer(ask, "frost", "Cannot tell", "no air temperature was logged beside the crop", "", "frost")
    gaps = facts.number("frost.unrecorded_cold_hours") or 0.0
    if low < (facts.number("frost.line_c") or 0.0):  # a house without heat: its frosts are no events of their own
        nights = facts.number("frost.nights_below.0.estimate") or 0.0
        word = f"Frost came in on {count(nights, 'night')}" if nights else "Frost came in"
        return answer(ask, "frost", word, f"{w.temp(low)} at the coldest", COUNTED, "frost")
    if gaps > 0:
        why = f"never colder on record than {w.temp(low)}; {w.hours(gaps)} of frost outside have no reading inside"
        return answer(ask, "frost", "Cannot tell", why, "", "frost")
    return answer(ask, "frost", "No", f"never colder than {w.temp(low)} on record", COUNTED, "frost")


def _soon(event: Event) -> str:
    """How long the crop had once the heat was gone, as it was measured."""
    minutes = event.line_crossed_after_min
    return "" if minutes is None else f"the frost line was crossed after {lag_words(minutes)}"


def _too_small(facts: Facts, event: Event) -> str:
    """What the hardest hours asked of a heater that could not make it good, and what it gives."""
    needed, have = facts.number("heat.heater_needed_w.coldest_hour"), rated_heat_w(facts)
    if event.cause != TOO_COLD or needed is None or have is None or have >= needed:
        return ""
    return f"the heater gives {number(have)} of the {watts(needed)} asked"


def how_cold(ask: str, facts: Facts) -> Answer:
    """The coldest air at the crop, when and where, and the nights under the frost line."""
    f, w = facts.r.frost, facts.w
    low = getattr(f, "minimum", None)
    if low is None or low.temperature_c is None or low.at is None:
        return answer(ask, "frost", "Cannot tell", "no air temperature was logged beside the crop", "", "frost")
    outside = f"{w.temp(low.outdoor_c)} outside" if low.outdoor_c is not None else ""
    nights = f.nights_below["0"].estimate
    under = f"{count(nights, 'night')} under {w.temp(f.line_c)}" if nights else f"never under {w.temp(f.line_c)}"
    record = " on record" if gaps_in(f.hours_unrecorded) else ""
    why = fitted((f"on {day(low.at)} at “{short(low.logger or '')}”", outside, f"{under}{record}"), WHY_WORDS)
    return answer(ask, "frost", w.temp(low.temperature_c), why, COUNTED, "frost")


def _how_often(facts: Facts, events: int) -> str:
    """By events; in a house without heat by nights: of its frosts only the coldest are events."""
    nights = facts.number("frost.nights_below.0.estimate") or 0.0
    return f"on {count(nights, 'night')}" if nights and not facts.there.heater else _times(events)


def _times(n: int) -> str:
    return {1: "once", 2: "twice"}.get(n, f"{number(n)} times")


def _part(share: float) -> str:
    return "In every hour" if share >= ALL else "In no hour" if share <= 0 else f"{share_words(share)} of hours"


def _damp(ask: str, facts: Facts, on: Grounds) -> Answer:
    hours, of = facts.number("damp.hours_above_high.estimate"), facts.number("damp.hours_recorded")
    if hours is None or not of:
        return answer(ask, "damp", "Cannot tell", "no humidity was logged beside the crop", "", "damp")
    w, low, high = facts.w, *(facts.number(f"damp.hours_above_high.{end}") for end in ("low", "high"))
    band = "" if low is None or high is None else f"between {number(low)} and {w.hours(high)} by the sensor's accuracy"
    line = w.percent(facts.number("damp.high_pct") or 80.0)
    mould = losses([e for e in on.events if e.kind == "loss" and "mould" in e.cause.casefold()])
    parts = (
        f"{w.hours(hours)} of {number(of)} above {line}",
        band,
        f"mould took {mould}" if mould else "",
    )
    return answer(ask, "damp", _part(hours / of), fitted(parts, WHY_WORDS), COUNTED, "damp")


def _money(ask: str, facts: Facts, on: Grounds) -> Answer:
    balance, w = on.balance, facts.w
    if balance.total is None or not w.currency:
        why = missing_words(balance) or next(iter(balance.reasons.values()), "no price is known")
        return answer(ask, "money", "Cannot tell", why, "", "harvest")
    parts = (total_words(balance, w), per_kg_words(balance, facts), missing_words(balance))
    sure = "Sure as arithmetic of your own books." if not balance.missing else ""
    return answer(ask, "money", f"{total_money(balance, w)} in all", fitted(parts, WHY_WORDS), sure, "harvest")


def _light(ask: str, facts: Facts, on: Grounds) -> Answer:
    days, mean = facts.number("light.days_under_ten_hours"), facts.number("light.mean_daily_light_mol")
    if days is None and mean is None:
        latitude = facts.r.readings.without("place", "not given")
        why = f"the latitude is {latitude} and no light was logged"
        return answer(ask, "light", "Cannot tell", why, "", "light")
    need = getattr(facts.r.light, "need_mol", None)
    lit = "" if mean is None else f"{number(mean, 1)}\u00a0mol/m² a day on average"
    needed = f"leafy crops ask for about {number(need)}" if need and mean is not None else ""
    dark = "" if days is None else f"{count(days, 'day')} under ten hours"
    word = f"{number(days)} dark days" if days is not None and round(days) != 1 else "Light was measured"
    return answer(ask, "light", word, fitted((dark, lit, needed), WHY_WORDS), "", "light")


def _soil(ask: str, facts: Facts, on: Grounds) -> Answer:
    mean, w = facts.number("soil.mean_c"), facts.w
    if mean is None:
        return answer(ask, "soil", "Cannot tell", "no probe in the bed left a reading", "", "soil")
    cold, aim = facts.number("soil.hours_below_aim.estimate"), facts.number("soil.aim_c")
    below = "" if cold is None or aim is None else f"{w.hours(cold)} under {w.temp(aim)}"
    given = facts.number("soil.released_kwh_per_night")
    gave = "" if given is None or not given > 0 else f"gave back {w.kwh(given, 1)} a night"
    parts = (f"{w.temp(mean)} on average", below, gave)
    return answer(ask, "soil", f"{w.temp(mean)} on average", fitted(parts[1:] or parts, WHY_WORDS) or parts[0],
                  COUNTED, "soil")  # fmt: skip


_TOPICS: Mapping[str, Callable[[str, Facts, Grounds], Answer]] = MappingProxyType(
    {"hold": _hold, "frost": _frost, "damp": _damp, "money": _money, "light": _light, "soil": _soil}
)


def crops_lost(ask: str, facts: Facts, on: Grounds) -> Answer:
    """What cost crops: causes with what each took; nothing where books were kept and name no loss."""
    costly = [event for event in on.events if losses([event])]
    costly.sort(key=lambda e: -sum(met.lost or 0.0 for met in e.crops))
    if costly:
        told = [f"{cause_words(e)}{f', {day(e.start)}' if _dated(e) else ''}: {losses([e])}" for e in costly[:CAUSES]]
        word = begun(short(cause_words(costly[0]), 4))
        return answer(ask, "losses", word, fitted(told, WHY_WORDS), "Sure: counted in your books.", "frost")
    planted = [p for p in facts.r.readings.plantings if p.lost is not None]
    if not planted:
        why = "no planting book was kept" if not facts.r.readings.plantings else "no planting has a loss written down"
        return answer(ask, "losses", "Cannot tell", why, "", "harvest")
    lost = [p for p in planted if p.lost]
    if not lost:
        why = f"no loss in {count(len(planted), 'planting')} of your book"
        return answer(ask, "losses", "Nothing", why, "Sure: counted in your book.", "harvest")
    lost.sort(key=lambda p: -(p.lost or 0.0))
    causes = [f"{p.cause or 'cause not noted'}: {number(p.lost or 0.0)}\u00a0{short(p.crop, 2)}" for p in lost]
    word = begun(short(lost[0].cause or "cause not noted", 4))
    return answer(ask, "losses", word, fitted(causes, WHY_WORDS), "Sure: counted in your book.", "harvest")


def _dated(event: Event) -> bool:
    """A loss of which only the planting is written has no day."""
    return event.kind != "loss" or event.dated


def weeks_worth(ask: str, facts: Facts, on: Grounds) -> Answer:
    """Which weeks were worth heating: how much of the money kept plants that needed it."""
    balance = on.balance
    heated = heated_weeks(balance)
    told = [week for week in heated if week.needed_share is not None]
    if not told:
        unknown = "what a night without heat would have been is not known"
        why = balance.reasons.get("weeks") or balance.reasons.get("weeks.needed_share")
        why = why or (unknown if facts.r.season.heating else "no heater is listed")
        return answer(ask, "weeks", "Cannot tell", why, "", "heat")
    word = begun(of_all(needed_weeks(told), len(told), "week"))
    rest = len(heated) - len(told)
    unjudged = f"{count(rest, 'heated week')} could not be judged" if rest else ""
    why = fitted((weeks_words(balance, facts), unjudged), WHY_WORDS)
    return answer(ask, "weeks", word, why, _forecast_sure(facts), "heat")


def _forecast_sure(facts: Facts) -> str:
    """By the band of what a night without heat would have been."""
    levels = [night.level for night in getattr(facts.r.frost, "without_heat_nights", ())]
    word = by_level(min(levels, default=None))
    return f"{word}, night by night: what it would have been without heat." if word else ""
