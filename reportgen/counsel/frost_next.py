"""Findings of the Frost page that look ahead: the holding limit, the alarm, the week to open up, absences."""

from __future__ import annotations

import math

from reportgen.counsel import alarms, cautions
from reportgen.counsel.alarms import SHORT_H, worth_ringing
from reportgen.counsel.facts import Facts
from reportgen.counsel.frost import CLOSE_K
from reportgen.counsel.types import Said, Stake
from reportgen.counsel.whole import gaps_in
from reportgen.measures.frost import Alarm
from reportgen.measures.frost_cold import CLOSE, HELD
from reportgen.measures.frost_limit import last_touch
from reportgen.measures.there import days_lengthen
from reportgen.wording import NBSP, count, day, number

COLDER_K = 1.0  # a night colder by less is no other news; our own line
LONG_BLIND_H = 1.0  # without readings while away before it is worth a sentence; our own line

SEEN_ONLY = "Sure for what was seen; nothing is said of colder nights, since that guess is wrong too often."
NO_PROMISE = (
    "Sure for what was seen, and no promise: simulated houses that held only just fell below the frost line on one of "
    "ten later nights about as cold."
)
CHOSEN = {"with heat": " with heat", "at the hold": " on which the air stood at its usual hold or under it"}


def flat_out_words(facts: Facts) -> str:
    """On which nights the heating runs flat out, with its band; empty where that is not known."""
    limit, w = facts.r.frost.holding_limit, facts.w
    if limit is None or limit.heater_flat_out_c is None or limit.flat_out_half_k is None:
        return ""
    ends = [w.temp(limit.heater_flat_out_c + side * limit.flat_out_half_k, 0) for side in (-1, 1)]
    return f" As the house is now its heating runs flat out on nights of {ends[0]} to {ends[1]} outdoors in the mean."


def limit(facts: Facts) -> Said | None:
    """Down to which outdoor air the house stays above the frost line; None where no night can tell."""
    f, w = facts.r.frost, facts.w
    held = f.holding_limit
    if held.coldest_seen_c is None or held.points.empty:
        return None
    told = held.outdoor_c
    if told is not None:
        claim = f"On 19 nights of 20 the house stays above {w.temp(f.line_c)} down to about {w.temp(told, 0)} outdoors."
        stake: Stake = "crop at risk"
        how = "A hint: by its nights so far about one in twenty like them falls below the lower line."
    elif held.reason in (HELD, CLOSE) and held.coldest_seen_c < f.line_c:  # else no night put it to the test
        claim = f"The house held on every night{of_which(facts)}, down to {w.temp(held.coldest_seen_c)} outdoors"
        claim += ", but only just." if held.reason == CLOSE else "; colder was not tested."
        stake = "crop at risk" if held.reason == CLOSE else "good news"
        how = NO_PROMISE if held.reason == CLOSE else SEEN_ONLY
    else:
        return None
    rare = facts.r.season.place.rare_low_c
    beyond = (
        f" A low that comes once in about twenty years is {w.temp(rare, 0)} at your place." if rare is not None else ""
    )
    evidence = (_rests_on(facts), _fell(facts), _held_colder(facts), beyond, flat_out_words(facts))
    return Said(
        claim=claim,
        evidence="".join(evidence),
        how_sure=how,
        next_step="Draw fleece over the beds at dusk, clear of any heater, when a colder night is forecast."
        if facts.there.heater
        else "Draw fleece over the beds at dusk when a colder night is forecast.",
        caution=cautions.ALONE if facts.there.heater else None,
        figure=w.temp(told if told is not None else held.coldest_seen_c, 0),
        figure_note="outdoors, and it holds" if held.reason != CLOSE else "outdoors, and it just held",
        token="cold",
        stake=stake,
        weight=0.3,
    )


def of_which(facts: Facts) -> str:
    """Of which nights it is said that all held."""
    f = facts.r.frost
    since = " since it was last altered" if last_touch(facts.r.readings) else ""
    return since + (" that its heat ran through" if f.failures or f.holding_limit.left_out else "")


def _rests_on(facts: Facts) -> str:
    """How many nights carry it, and since when."""
    held = facts.r.frost.holding_limit
    fitted = int(held.points["fitted"].sum()) if "fitted" in held.points else 0
    kept = (
        "whose diary notes no change to house or heat"
        if facts.there.diary_lines
        else "of which no diary tells a change"
    )
    since = "since the house was last altered" if last_touch(facts.r.readings) else f"of a season {kept}"
    return f"{count(fitted, 'night')}{CHOSEN.get(held.chosen, '')} {since}."


def _fell(facts: Facts) -> str:
    """That the air inside fell with the cold, where all nights held and it did."""
    f, w = facts.r.frost, facts.w
    held = f.holding_limit
    if held.outdoor_c is not None or not held.chosen or held.curve.empty:
        return ""
    least = float(held.points.loc[held.points["fitted"], "inside_c"].min())
    return f" The colder it was outdoors on the coldest of them, the colder it was inside, down to {w.temp(least)}."


def _held_colder(facts: Facts) -> str:
    """The coldest night that held, where it was colder than what is told: seen, and so not to be kept silent. Where all
    held since the last change it is one from before it."""
    f, w = facts.r.frost, facts.w
    held, points, touched = f.holding_limit, f.holding_limit.points, last_touch(facts.r.readings)
    told = held.outdoor_c if held.outdoor_c is not None else held.coldest_seen_c
    if told is None or "inside_c" not in points:
        return ""
    stood = points[points["inside_c"] >= f.line_c]
    if held.outdoor_c is None:
        stood = stood[[touched is not None and night <= touched for night in stood["date"]]]
    stood = stood.sort_values("outdoor_c", kind="stable")
    if not len(stood) or float(stood["outdoor_c"].iloc[0]) > told - COLDER_K:
        return ""
    night, outdoor, inside = (stood[name].iloc[0] for name in ("date", "outdoor_c", "inside_c"))
    seen = f"{day(night)}, {w.temp(float(outdoor))} outdoors and {w.temp(float(inside))} inside"
    if held.outdoor_c is None:
        return f" Before that change it had held on a colder night: that of {seen}."
    before = ", before that change" if touched is not None and night <= touched else ""
    return f" The coldest night on which it held was that of {seen}{before}; one night is no promise."


def told_alarm(facts: Facts) -> Alarm | None:
    """The line of which every page speaks."""
    return alarms.told_alarm(facts.r.frost.alarms, facts.on.hold_advice, facts.r.season.aims.alarm_c)


def alarm_line(facts: Facts) -> Said | None:
    """The alarm line that warned best; None where none warned in need."""
    f, w = facts.r.frost, facts.w
    best = told_alarm(facts)
    if best is None or best.warning_h is None:
        return None
    false = best.rings - best.needed
    own = facts.r.season.aims.alarm_c
    kept = f" Yours is set to {w.temp(own)}." if own is not None else ""
    return Said(
        claim=f"An alarm at {w.temp(best.alarm_c)} would have rung {_rang(best, short_time(best.warning_h))}.",
        evidence=f"A ring is needed when the air comes within {w.diff(1, 0)} of the frost line while it rings; "
        f"{count(false, 'ring')} for nothing. The table has the other lines.{kept}",
        how_sure=f"Sure for {'the hours on record' if gaps_in(f.hours_unrecorded) else f'this {facts.there.season}'}; "
        f"another {facts.there.season} brings other nights.",
        next_step=_after_alarm(facts, best),
        caution=cautions.ALONE if facts.there.heater and not _serves(best) else None,
        figure=w.temp(best.alarm_c, 0),
        figure_note="alarm line",
        token="cold",
        stake="crop at risk",
        weight=0.2,
    )


def _after_alarm(facts: Facts, best: Alarm) -> str:
    """A line that warns in minutes is no help: what holds the crop comes before it."""
    own, line = facts.r.season.aims.alarm_c, facts.w.temp(best.alarm_c)
    clear = ", clear of any heater" if facts.there.heater else ""
    if not worth_ringing(best):
        return f"Draw fleece at dusk{clear} when a cold night is forecast: most rings of an alarm were for nothing."
    if (best.warning_h or 0.0) < SHORT_H:
        return f"Draw fleece at dusk{clear}, and do not wait for an alarm: its shortest warning is too short to act in."
    leave = "Leave the alarm at" if own == best.alarm_c else "Set the alarm to"
    return f"{leave} {line}, with its probe at the crop, and make sure that it reaches you where you sleep."


def _serves(alarm: Alarm) -> bool:
    """Whether it rings mostly when it must, and early enough to get up for."""
    return worth_ringing(alarm) and (alarm.warning_h or 0.0) >= SHORT_H


def _rang(alarm: Alarm, ahead: str) -> str:
    """How often it rang, how often that was needed, and how long `ahead`."""
    if alarm.rings == 1:
        return f"once, and was needed: it warned {ahead} ahead"
    needed = "all" if alarm.needed == alarm.rings else number(alarm.needed)
    return f"{count(alarm.rings, 'time')}, {needed} of them needed, the shortest warning {ahead}"


def short_time(hours: float) -> str:
    """A time [h] in words: 45 min, or 2.3 h."""
    return f"{number(60 * hours)}{NBSP}min" if hours < 1.5 else f"{number(hours, 1)}{NBSP}h"


def hot(facts: Facts) -> Said | None:
    """The first week with three hot days running; None without one."""
    f, w = facts.r.frost, facts.w
    if f.open_week is None or not math.isfinite(f.hot_hours.estimate):
        return None
    limit = facts.r.season.aims.hot_c
    spring = days_lengthen(f.open_week, facts.r.season.place.latitude) is True and facts.there.winter
    return Said(
        claim=f"In the week of {day(f.open_week)} the house was hotter than {w.temp(limit, 0)} on three days running.",
        evidence=f"{w.hours(f.hot_hours.estimate)} above it in the hours on record at the main logger.",
        how_sure="Sure for what was read; a screen in full sun still reads a little high.",
        next_step=f"Mark the week of {day(f.open_week)} for next year: vents open by day{_no_heat_by_day(facts)}."
        if spring
        else f"When days over {w.temp(limit, 0)} come, keep the vents open by day, and shut them for the night.",
        figure=day(f.open_week),
        figure_note="open up again" if spring else "week of three hot days",
        token="warm",
        stake="growth",
        weight=f.hot_hours.estimate / 100,
    )


def _no_heat_by_day(facts: Facts) -> str:
    """Only where the main heater still gave heat in that week or after it."""
    week, table = facts.r.frost.open_week, facts.r.frost.table
    if week is None or not bool((table.loc[table.index >= week, "heated_h"] > 0).any()):
        return ""
    return ", and no more heating by day"


def away(facts: Facts) -> Said | None:
    """The absence in which the crop was coldest, or nobody can say; None where all went well."""
    f, w = facts.r.frost, facts.w
    risky = [
        a for a in f.away if a.coldest_c is None or a.blind_hours >= LONG_BLIND_H or a.coldest_c - f.line_c < CLOSE_K
    ]
    if not risky:
        return None
    worst = min(risky, key=lambda a: a.coldest_c if a.coldest_c is not None else -99.0)
    nights = count(worst.nights, "night")
    if worst.coldest_c is None:
        claim = f"Nobody was there for {nights} from {day(worst.start)}, and no crop air is on record."
    else:
        claim = (
            f"While nobody was there ({nights} from {day(worst.start)}) the air came down to {w.temp(worst.coldest_c)}."
        )
    return Said(
        claim=claim,
        evidence=f"Your diary's absences; {w.hours(worst.blind_hours)} of this one without a reading.",
        how_sure="Sure for the hours on record.",
        next_step="Before the next absence give somebody the key, and let an alarm reach them.",
        figure=w.temp(worst.coldest_c) if worst.coldest_c is not None else "no record",
        figure_note="coldest while away",
        token="cold",
        stake="crop at risk",
        weight=0.1,
    )
