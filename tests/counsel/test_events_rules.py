"""The rules by which events are found: what belongs together, why it was cold, what it took; times by hand."""

from __future__ import annotations

import dataclasses
import datetime as dt
from types import SimpleNamespace
from typing import Any, cast

import numpy as np
import pandas as pd
import pytest
from made_season import ZONE, channel, heater, logger, planting, readings, season

from reportgen.counsel import events_crops
from reportgen.counsel.events_books import by_cold, lines_of, lost_by_cold, nobody_noted, seen_after, texts
from reportgen.counsel.events_cause import cause_of, out_to_line_min
from reportgen.counsel.events_crops import met_by
from reportgen.counsel.events_losses import losses
from reportgen.counsel.events_spells import Happening, band_spells, coldest_place, joined, lowest
from reportgen.counsel.grounds import (
    HEAT_FAILED,
    HEAT_OUT,
    NO_HEAT_ANY_MORE,
    NO_HEAT_YET,
    NOT_KNOWN,
    OPEN_OR_ALTERED,
    TOO_COLD,
    UNHEATED,
)
from reportgen.counsel.results import Results
from reportgen.measures.exposure import line
from reportgen.measures.frost_types import CropMargin, Failure
from reportgen.measures.heating_hours import FLAT_OUT_SHARE
from reportgen.readings.types import DiaryEntry, Inspection
from reportgen.season import HeatSource

H, DAY = 3600.0, 86_400.0
MAIN = HeatSource(name="fan heater", fuel="electricity", logger="plug", rated_power_w=1000.0)


def at(day: str, clock: str = "00:00") -> pd.Timestamp:
    return pd.Timestamp(f"{day} {clock}", tz=ZONE)


def s(day: str, clock: str = "00:00") -> float:
    return at(day, clock).timestamp()


def entry(day: str, what: str = "Door", kind: Any = "event", **more: Any) -> DiaryEntry:
    usual: dict[str, Any] = {
        "line": 2,
        "date": dt.date.fromisoformat(day),
        "time": None,
        "kind": kind,
        "what": what,
        "touches": (),
        "reversible": True,
        "hoped_for": (),
        "until": None,
        "cost": None,
        "years": None,
        "written": None,
        "note": "",
    }
    return DiaryEntry(**(usual | more))


def failure(start: pd.Timestamp, end: pd.Timestamp) -> Failure:
    return Failure(start=start, end=end, hours=1.0, minimum_c=-1.0)


# ---- what belongs together: within 48 h, at most seven days


def spans(*hours: tuple[float, float]) -> list[list[tuple[float, float]]]:
    """Spells from – to in hours as they were joined."""
    found = joined([(a * H, b * H) for a, b in hours], ())
    return [[(a / H, b / H) for a, b in one.spells] for one in found]


def test_spells_within_two_days_are_one_event() -> None:
    """48 h apart are one, half an hour more is two; given out of order they are put in order."""
    assert spans((0, 5), (53, 60)) == [[(0, 5), (53, 60)]]
    assert spans((53.5, 60), (0, 5)) == [[(0, 5)], [(53.5, 60)]]


def test_an_event_is_never_longer_than_seven_days() -> None:
    """Nights of 24 h to 168 h after the first hour are one; one that would end later begins another. A spell of 15
    days is told in weeks: 7, 7 and 1."""
    assert len(spans((0, 10), (40, 100), (140, 168))) == 1
    assert spans((0, 10), (40, 100), (140, 169)) == [[(0, 10), (40, 100)], [(140, 169)]]
    assert spans((0, 15 * 24)) == [[(0, 168)], [(168, 336)], [(336, 360)]]


def test_what_ended_before_the_heat_failed_was_not_its_doing() -> None:
    """A spell an hour before a failure stays alone; one in it, one that begins before it and runs into it, and one
    after it within two days belong to it."""
    failed = failure(at("2026-01-14", "22:00"), at("2026-01-15", "06:00"))
    before = (s("2026-01-14", "18:00"), s("2026-01-14", "21:00"))
    within = (s("2026-01-15", "01:00"), s("2026-01-15", "08:00"))
    later = (s("2026-01-16", "01:00"), s("2026-01-16", "05:00"))
    found = joined([before, within, later], [failed])
    assert [(one.spells, len(one.failures)) for one in found] == [((before,), 0), ((within, later), 1)]
    across = (s("2026-01-14", "21:00"), s("2026-01-14", "23:00"))
    (one,) = joined([across], [failed])
    assert one.start_s == across[0] and one.end_s == s("2026-01-15", "06:00") and one.hours == 2.0
    twice = joined([], [failed, failure(at("2026-01-16", "22:00"), at("2026-01-17", "06:00"))])
    assert [len(one.failures) for one in twice] == [2]


def test_the_coldest_reading_between_two_instants() -> None:
    """Of 3, 1, −2, 0 °C at 0, 1, 2, 3 h: both ends count; of equal ones the first; outside the record not known."""
    curve = line(pd.Series([3.0, 1.0, -2.0, 0.0, 0.0], pd.date_range("1970-01-01", periods=5, freq="1h", tz="UTC")))
    assert lowest(curve, 0.0, 4 * H) == (-2.0, 2 * H)
    assert lowest(curve, 0.0, 1 * H) == (1.0, 1 * H) and lowest(curve, 1.5 * H, 2 * H) == (-2.0, 2 * H)
    assert lowest(curve, 3 * H, 9 * H) == (0.0, 3 * H)
    assert all(np.isnan(lowest(curve, 2.1 * H, 2.9 * H)))


def airs(**of: list[float]) -> Any:
    """Loggers with a reading an hour from midnight of 14 January."""
    hours = pd.date_range(at("2026-01-14"), periods=max(map(len, of.values())), freq="1h")
    series = {name: pd.Series(values, hours[: len(values)]) for name, values in of.items()}
    return [(channel(x, logger=name), line(x)) for name, x in series.items()]


def test_the_coldest_place_is_the_logger_that_read_lowest_in_those_hours() -> None:
    """The door is colder at 2 h, the bench at 4 h; without a reading in those hours there is none."""
    two = airs(bench=[5.0, 5.0, 5.0, 5.0, -4.0], door=[5.0, 5.0, -1.0, 5.0, 5.0])
    start = s("2026-01-14")
    assert coldest_place(two, start, start + 3 * H) == "door"
    assert coldest_place(two, start, start + 4 * H) == "bench"
    assert coldest_place(two, start + 9 * H, start + 10 * H) is None
    dead = airs(bench=[5.0], door=[5.0, 5.0, -1.0])
    assert coldest_place(dead, start + 1 * H, start + 2 * H) == "door"


# ---- which crops met it


def crop(
    name: str, bed: str | None = None, high_c: float | None = 0.0, first: str = "2026-01-05", last: str = "2026-02-01"
) -> CropMargin:
    known: dict[str, Any] = {
        "crop": name,
        "bed": bed,
        "damage_high_c": high_c,
        "assumed_standing": False,
        "from_": dt.date.fromisoformat(first),
        "to": dt.date.fromisoformat(last),
    }
    names = (
        "damage_low_c",
        "coldest_c",
        "margin_k",
        "coldest_at",
        "place",
        "week_before_c",
        "survived_c",
        "lost",
        "source",
        "without_heat_c",
    )
    return CropMargin(**(dict.fromkeys(names) | known))


def results(*crops: CropMargin, **more: Any) -> Results:
    of = more.pop("of", None) or season(loggers=(logger("bench", main=True), logger("door", beds=("east",))))
    made = SimpleNamespace(season=of, readings=readings(of, **more), frost=SimpleNamespace(crops=crops, line_c=0.0))
    return cast("Results", made)


HOURS = pd.date_range(at("2026-01-14"), at("2026-01-16"), freq="1h")
# 5 °C but for −3 °C at 02:00 to 04:00 of the 14th and −6 °C at 02:00 of the 15th (an hour down, an hour up)
COLD = pd.Series(5.0, HOURS)
COLD[at("2026-01-14", "02:00") : at("2026-01-14", "04:00")] = -3.0
COLD[at("2026-01-15", "02:00")] = -6.0


def test_in_a_house_without_heat_a_crop_s_own_band_is_the_line() -> None:
    """From 5 to −3 °C in an hour: 0 °C is crossed after 5/8 h, −1 °C after 6/8 h. Two crops with overlapping spells
    are one spell; a crop without a band, or that was cleared before, has none."""
    curve = line(COLD)
    zero = (s("2026-01-14", "01:00") + 0.625 * H, s("2026-01-14", "05:00") - 0.625 * H)
    second = (s("2026-01-15", "01:00") + 5 / 11 * H, s("2026-01-15", "03:00") - 5 / 11 * H)
    assert np.allclose(band_spells(results(crop("kale")), (), curve), [zero, second])
    both = band_spells(results(crop("pea", high_c=-1.0), crop("kale")), (), curve)
    assert np.allclose(both, [zero, second])
    assert band_spells(results(crop("kale", high_c=None)), (), curve) == []
    gone = band_spells(results(crop("kale", last="2026-01-13")), (), curve)  # the morning of the 14th is its last
    assert np.allclose(gone, [zero])
    later = band_spells(results(crop("kale", first="2026-01-14")), (), curve)  # planted after that morning
    assert np.allclose(later, [second])


def test_a_crop_meets_the_air_of_its_bed_s_logger() -> None:
    """East has a logger of its own that stayed at 1 °C; the rest meets the coldest place."""
    two = ((channel(pd.Series(1.0, HOURS), logger="door"), line(pd.Series(1.0, HOURS))),)
    curve = line(COLD)
    assert band_spells(results(crop("kale", "east")), two, curve) == []
    assert len(band_spells(results(crop("kale", "west")), two, curve)) == 2


NIGHTS = (
    Happening(spells=((s("2026-01-14", "01:30"), s("2026-01-14", "04:30")),)),
    Happening(spells=((s("2026-01-15", "01:30"), s("2026-01-15", "02:30")),)),
)


def met(*crops: CropMargin, rows: Any = (), nights: Any = NIGHTS) -> Any:
    found = met_by(results(*crops, plantings=tuple(rows)), (), line(COLD), nights)
    return [[(c.crop, c.coldest_c, c.lost, c.cause) for c in night] for night in found.crops], found.told


def row(name: str, lost: float | None = None, cause: str = "", lost_on: str | None = None, **more: Any) -> Any:
    day = dt.date.fromisoformat(lost_on) if lost_on else None
    return planting(
        name,
        more.pop("bed", None),
        "2026-01-05",
        more.pop("cleared", None),
        lost=lost,
        cause=cause,
        lost_on=day,
        **more,
    )


def test_a_loss_by_cold_belongs_to_the_night_in_which_the_crop_met_the_coldest() -> None:
    """−3 and −6 °C: the two peas lost to frost on the 16th stand with the second night, 0 with the first."""
    found, told = met(crop("pea"), rows=[row("pea", 2.0, "frost", "2026-01-16")])
    assert found == [[("pea", -3.0, 0.0, None)], [("pea", -6.0, 2.0, "frost")]] and told == {0}


def test_a_crop_that_did_not_stand_then_is_not_among_those_that_met_it() -> None:
    """Cleared on the morning after the first night, or planted on that day: what stood through a night met its cold,
    whatever hour it was cleared at (a night is named after its evening)."""
    first, second = met(crop("early", last="2026-01-13"), crop("late", first="2026-01-14"))[0]
    assert first == [("early", -3.0, None, None)] and second == [("late", -6.0, None, None)]
    assert met(crop("kale", last="2026-01-12"))[0] == [[], []]
    assert met(crop("kale", first="2026-01-15"))[0] == [[], []]


def test_two_rows_of_one_crop_keep_their_own_losses() -> None:
    """By their order, their bed and the time in which they stood; what none of the rows is has no loss."""
    rows = [row("pea", 1.0, "frost", "2026-01-16", bed="west"), row("pea", 4.0, "frost", "2026-01-16", bed="east")]
    found, told = met(crop("pea", "east"), crop("pea", "west"), crop("pea", "north"), rows=rows)
    assert [c[2] for c in found[1]] == [4.0, 1.0, None] and told == {0, 1}
    earlier = [row("pea", 3.0, "frost", "2026-01-16", cleared="2026-01-05"), row("pea", 5.0, "frost", "2026-01-16")]
    assert met(crop("pea"), rows=earlier)[0][1][0][2] == 5.0


def test_stamps_are_in_the_season_s_zone() -> None:
    """To the second."""
    assert events_crops.stamp(results(), s("2026-01-14", "02:00") + 0.4) == at("2026-01-14", "02:00")


# ---- what the books say of it


def test_lines_of_those_days_are_told_and_ideas_are_none() -> None:
    """From the first to the last day; an absence runs through; each text once, with its note."""
    lines = (
        entry("2026-01-12", "a"),
        entry("2026-01-13", "b"),
        entry("2026-01-15", "c", note="d"),
        entry("2026-01-16", "e"),
        entry("2026-01-10", "f", "away", until=dt.date(2026, 1, 13)),
        entry("2026-01-14", "g", "idea"),
        entry("2026-01-10", "h", "away", until=dt.date(2026, 1, 12)),
        entry("2026-01-15", "b"),
    )
    found = lines_of(readings(diary=lines), dt.date(2026, 1, 13), dt.date(2026, 1, 15))
    assert texts(found) == ("b", "c: d", "f")


def test_nobody_noted_it_only_where_the_diary_was_kept_then() -> None:
    """Lines before and after and none on it; an absence alone is no note; a book that is not kept says nothing."""
    span = (at("2026-01-14", "22:00"), at("2026-01-15", "06:00"))
    around = (entry("2026-01-10"), entry("2026-01-20"))
    assert nobody_noted(readings(diary=around), *span, ())
    assert nobody_noted(readings(diary=around), *span, (entry("2026-01-14", kind="away"),))
    assert not nobody_noted(readings(diary=around), *span, (entry("2026-01-14"),))
    assert not nobody_noted(readings(), *span, ())
    assert not nobody_noted(readings(diary=around[:1]), *span, ())
    assert not nobody_noted(readings(diary=(*around[:1], entry("2026-01-14", kind="away"))), *span, ())


@pytest.mark.parametrize(
    ("lost", "cause", "day", "counts"),
    [
        (None, "frost", "2026-01-15", None),
        (0.0, "frost", "2026-01-15", 0.0),
        (3.0, "slugs", "2026-01-15", 0.0),
        (3.0, "", "2026-01-15", None),
        (3.0, "frost", None, None),
        (3.0, "hard frost", "2026-01-14", 3.0),
        (3.0, "frost", "2026-01-13", 0.0),
        (3.0, "Frozen", "2026-01-29", 3.0),  # 14 days after the 15th
        (3.0, "frost", "2026-01-30", 0.0),
    ],
)
def test_a_loss_counts_by_its_own_cause_for_fourteen_days(
    lost: float | None, cause: str, day: str | None, counts: float | None
) -> None:
    """What the book does not say is not known; what something else took is none of the cold's."""
    found = lost_by_cold(row("pea", lost, cause, day), dt.date(2026, 1, 14), dt.date(2026, 1, 15))
    assert found == counts
    assert by_cold(row("pea", cause="Frost, in the night")) and not by_cold(row("pea", cause="defrosting"))


def look(day: str, found: str, level: int | None = 1, **more: Any) -> Inspection:
    usual: dict[str, Any] = {"line": 2, "bed": None, "crop": None, "action": ""}
    return Inspection(date=dt.date.fromisoformat(day), found=found, level=level, **(usual | more))


def test_marks_of_cold_are_looked_for_until_fourteen_days_after() -> None:
    """From the 14th to the 29th, not of level 0, by what was found or done."""
    looks = (
        look("2026-01-13", "frozen leaves"),
        look("2026-01-14", "frozen leaves"),
        look("2026-01-29", "glassy stems"),
        look("2026-01-30", "frozen leaves"),
        look("2026-01-20", "no frost marks", 0),
        look("2026-01-20", "slugs"),
        look("2026-01-21", "limp", None, action="cut off what froze"),
    )
    found = seen_after(readings(inspections=looks), dt.date(2026, 1, 14), dt.date(2026, 1, 15))
    assert [one.date.day for one in found] == [14, 29, 21]


# ---- why it was cold: the first that holds


def burning(watts: list[float], *, rated: float | None = 1000.0, role: str = "main", name: str = "plug") -> Any:
    """A plug with a reading an hour from 20:00 of 13 January."""
    hours = pd.date_range(at("2026-01-13", "20:00"), periods=len(watts), freq="1h")
    return channel(pd.Series(watts, hours), "heater_power", name, where="elsewhere")


# the line crossed at 01:00, coldest at 05:00 of the 14th
NIGHT = Happening(spells=((s("2026-01-14", "01:00"), s("2026-01-14", "07:00")),))
COLDEST = at("2026-01-14", "05:00")


def why(
    *lines: DiaryEntry,
    sources: Any = (MAIN,),
    heating: Any = None,
    channels: Any = (),
    one: Happening = NIGHT,
    coldest: pd.Timestamp | None = COLDEST,
) -> str:
    supplies = (heater([("2026-01-05", "2026-02-01", 300.0, 90.0)]),) if heating is None else heating
    of = season(heating=sources, loggers=(logger("plug", "heater_power", where="elsewhere"),))
    r = SimpleNamespace(season=of, readings=readings(of, heating=supplies, channels=channels))
    return cause_of(cast("Results", r), one, coldest, lines)


def test_a_failure_comes_before_every_other_cause() -> None:
    """Even with a door that stood open."""
    failed = Happening(spells=NIGHT.spells, failures=(failure(at("2026-01-13", "22:00"), COLDEST),))
    assert why(entry("2026-01-14", "Door left open"), one=failed) == HEAT_FAILED


@pytest.mark.parametrize(
    ("told", "open_"),
    [
        (entry("2026-01-13", "Door left open"), True),  # the evening's own day
        (entry("2026-01-14", "Door left open"), True),  # found the next morning
        (entry("2026-01-15", "Door left open"), False),
        (entry("2026-01-12", "Door left open"), False),
        (entry("2026-01-14", "An owl"), False),
        (entry("2026-01-14", "An owl", note="it had blown the vent ajar"), True),
        (entry("2026-01-14", "An owl", touches=("envelope",)), True),
        (entry("2026-01-14", "An owl", touches=("bed",)), False),
        (entry("2026-01-14", "Door left open", time=dt.time(12, 0)), False),  # the night after
        (entry("2026-01-14", "Door left open", time=dt.time(11, 59)), True),
        (entry("2026-01-13", "Door left open", time=dt.time(12, 0)), True),
        (entry("2026-01-13", "Door left open", time=dt.time(11, 59)), False),
        (entry("2026-01-13", "Vent taped", "change", touches=("air",)), True),
        (entry("2026-01-14", "Vent taped", "change", touches=("air",)), False),  # of the next night
        (entry("2026-01-13", "Beds watered", "change", touches=("water",)), False),
        (entry("2026-01-13", "Door left open", "upkeep", touches=("air",)), False),
        (entry("2026-01-10", "Fan", "spell", touches=("air",), until=dt.date(2026, 1, 13)), True),
        (entry("2026-01-13", "Fan", "spell", touches=("air",), until=dt.date(2026, 1, 20)), True),
        (entry("2026-01-10", "Fan", "spell", touches=("air",), until=dt.date(2026, 1, 20)), False),
        (entry("2026-01-13", "Fan", "spell", touches=("air",), time=dt.time(9, 0)), True),
    ],
)
def test_what_stood_open_or_was_altered_that_night(told: DiaryEntry, open_: bool) -> None:
    """The night of the 13th, coldest at five of the 14th: an event by its words or what it touches, a change or a spell
    by what it touches, on the day or, of an event without a time, the day after."""
    assert why(told) == (OPEN_OR_ALTERED if open_ else NOT_KNOWN)


@pytest.mark.parametrize(
    ("what", "note", "cause"),
    [
        ("Bottle ran empty in the night", "pilot was out at breakfast", HEAT_OUT),
        ("Power cut in the village", "", HEAT_OUT),
        ("Propane out", "", HEAT_OUT),
        ("Power cut", "the vent opener stood open", OPEN_OR_ALTERED),
        ("Pane fell out", "", OPEN_OR_ALTERED),
    ],
)
def test_heat_that_was_out_by_the_diary_is_no_open_door(what: str, note: str, cause: str) -> None:
    """Cylinders record no hour: the line of the diary is the only witness, and nothing stood open."""
    assert why(entry("2026-01-14", what, note=note)) == cause
    assert why(entry("2026-01-14", what, note=note), heating=()) == OPEN_OR_ALTERED


@pytest.mark.parametrize(
    ("touches", "hoped_for", "let_in"),
    [
        (("envelope",), ("warmer nights",), False),
        (("envelope",), ("less heating",), False),
        (("thermostat",), ("less heating",), True),  # turned down
        (("envelope",), ("drier air",), True),
    ],
)
def test_what_was_put_on_against_the_cold_did_not_let_it_in(
    touches: tuple[str, ...], hoped_for: tuple[str, ...], let_in: bool
) -> None:
    """A carpet over the lid in the evening of the frost is no door that stood open."""
    for kind in ("spell", "change"):
        told = entry("2026-01-13", "Old carpet", kind, touches=touches, hoped_for=hoped_for, until=dt.date(2026, 1, 19))
        assert why(told, heating=(), sources=()) == (OPEN_OR_ALTERED if let_in else UNHEATED)


@pytest.mark.parametrize(
    ("day", "time", "minutes"),
    [
        ("2026-01-14", dt.time(0, 20), 40.0),
        ("2026-01-13", dt.time(22, 30), 150.0),
        ("2026-01-14", dt.time(2, 0), None),  # found after it was cold already
        ("2026-01-12", dt.time(22, 0), None),  # the night before
        ("2026-01-14", None, None),
    ],
)
def test_minutes_from_the_diary_s_own_time_to_the_line(day: str, time: dt.time | None, minutes: float | None) -> None:
    """The line was crossed at 01:00 on the 14th; the stove went out when the diary says."""
    of = season(heating=(MAIN,), loggers=(logger("plug", "heater_power", where="elsewhere"),))
    burnt = heater([("2026-01-05", "2026-02-01", 300.0, 90.0)])
    r = SimpleNamespace(season=of, readings=readings(of, heating=(burnt,)))
    told = entry(day, "Pellet stove out", time=time)
    assert out_to_line_min(cast("Results", r), NIGHT, [told]) == minutes
    assert out_to_line_min(cast("Results", r), NIGHT, [entry(day, "Door left open", time=time)]) is None


def test_without_a_heater_it_was_unheated_after_what_stood_open() -> None:
    """And no moment that is known, no line of it."""
    assert why(heating=()) == UNHEATED
    assert why(entry("2026-01-14", "Door left open"), heating=()) == OPEN_OR_ALTERED
    assert why(entry("2026-01-14", "Door left open"), heating=(), coldest=None) == UNHEATED


@pytest.mark.parametrize(
    ("watts", "flat"),
    [
        ([300.0] * 5 + [950.0] * 5, True),  # 95 % of 1000 W from 01:00 to 05:00
        ([300.0] * 5 + [949.0] * 5, False),
        ([950.0] * 5 + [950.0, 300.0, 950.0, 950.0, 950.0], False),
        ([300.0] * 5 + [950.0] * 4, False),  # silent from 04:00 on: a quarter is not known
    ],
)
def test_flat_out_is_ninety_five_percent_of_rated_power_while_the_air_fell(watts: list[float], flat: bool) -> None:
    """From the crossing to the coldest moment, by the plug's own readings, nine tenths of them known."""
    assert why(channels=(burning(watts),)) == (TOO_COLD if flat else NOT_KNOWN)


def test_a_fall_shorter_than_an_hour_is_looked_at_over_an_hour() -> None:
    """Crossed at 04:50, coldest at 05:00: the hour from 04:00 on tells, in which 300 W rose to 950 W."""
    short = Happening(spells=((s("2026-01-14", "04:50"), s("2026-01-14", "07:00")),))
    assert why(one=short, channels=(burning([300.0] * 9 + [950.0]),)) == NOT_KNOWN
    assert why(one=short, channels=(burning([300.0] * 8 + [950.0] * 2),)) == TOO_COLD


def test_every_main_heater_must_be_flat_out() -> None:
    """A second main heater at half its power had more to give; one without a rated power or a record is not known; a
    backup is not asked."""
    second = MAIN.model_copy(update={"name": "tube", "logger": "plug 2"})
    of = season(
        heating=(MAIN, second),
        loggers=(
            logger("plug", "heater_power", where="elsewhere"),
            logger("plug 2", "heater_power", where="elsewhere"),
        ),
    )
    full, half = burning([950.0] * 10), burning([500.0] * 10, name="plug 2")

    def cause(sources: Any, *channels: Any) -> str:
        made = of.model_copy(update={"heating": sources})
        supplies = (heater([("2026-01-05", "2026-02-01", 300.0, 90.0)]),)
        r = SimpleNamespace(season=made, readings=readings(made, heating=supplies, channels=channels))
        return cause_of(cast("Results", r), NIGHT, COLDEST, ())

    assert cause((MAIN, second), full, half) == NOT_KNOWN
    assert cause((MAIN, second), full, burning([950.0] * 10, name="plug 2")) == TOO_COLD
    assert cause((MAIN, second), full) == NOT_KNOWN
    assert cause((MAIN, second.model_copy(update={"rated_power_w": None})), full, half) == NOT_KNOWN
    assert cause((MAIN, second.model_copy(update={"role": "backup"})), full, half) == TOO_COLD
    assert cause((second.model_copy(update={"role": "backup"}),), full, half) == NOT_KNOWN


def test_of_a_switch_the_share_of_the_time_it_was_on_counts() -> None:
    """On throughout is all of it, whatever the rated power; on half of the time is not."""

    def cause(values: list[float]) -> str:
        hours = pd.date_range(at("2026-01-13", "20:00"), periods=len(values), freq="1h")
        plug = channel(pd.Series(values, hours), "heater_on", "plug", where="elsewhere")
        return why(channels=(plug,))

    assert cause([0.0] * 5 + [1.0] * 6) == TOO_COLD
    assert cause([0.0, 1.0] * 6) == NOT_KNOWN


@pytest.mark.parametrize(
    ("rows", "cause"),
    [
        ([("2026-01-20", "2026-02-01", 50.0, 9.0)], NO_HEAT_YET),
        ([("2026-01-14 07:00", "2026-02-01", 50.0, 9.0)], NO_HEAT_YET),  # begins as the spell ends
        ([("2026-01-14 06:00", "2026-02-01", 50.0, 9.0)], NOT_KNOWN),
        ([("2026-01-05", "2026-01-10", 50.0, 9.0)], NO_HEAT_ANY_MORE),
        ([("2026-01-05", "2026-01-14 01:00", 50.0, 9.0)], NO_HEAT_ANY_MORE),
        ([("2026-01-05", "2026-01-14 02:00", 50.0, 9.0)], NOT_KNOWN),
        ([("2026-01-05", "2026-01-10", 50.0, 9.0), ("2026-01-20", "2026-02-01", 50.0, 9.0)], NOT_KNOWN),
        ([("2026-01-05", "2026-01-10", 0.0, 0.0), ("2026-01-20", "2026-02-01", 50.0, 9.0)], NO_HEAT_YET),
        ([("2026-01-05", "2026-02-01", 0.0, 0.0)], NOT_KNOWN),
    ],
)
def test_before_the_first_and_after_the_last_heat(rows: Any, cause: str) -> None:
    """The spell is 01:00 to 07:00 of the 14th; rows without heat are no heat."""
    assert why(heating=(heater(rows),)) == cause


def test_the_main_heaters_tell_and_a_gap_in_those_hours_tells_nothing() -> None:
    """A backup that burnt from the 5th on is not asked where there is a main heater; a gap that only touches the spell
    is none; supplies without a row leave it open."""
    late = heater([("2026-01-20", "2026-02-01", 50.0, 9.0)])
    backup = heater([("2026-01-05", "2026-02-01", 50.0, 9.0)], name="stove", role="backup")
    assert why(heating=(backup, late)) == NO_HEAT_YET
    assert why(heating=(heater([("2026-01-20", "2026-02-01", 50.0, 9.0)], role="backup"),)) == NO_HEAT_YET

    def gap(start: str, end: str) -> str:
        gaps = pd.DataFrame({"start": [at("2026-01-14", start)], "end": [at("2026-01-14", end)]})
        return why(heating=(heater([("2026-01-20", "2026-02-01", 50.0, 9.0)], gaps=gaps),))

    assert gap("00:00", "01:00") == gap("07:00", "09:00") == NO_HEAT_YET
    assert gap("00:00", "01:30") == gap("06:30", "09:00") == gap("02:00", "03:00") == NOT_KNOWN
    assert why(heating=(heater([]),)) == NOT_KNOWN
    before = heater([("2026-01-05", "2026-01-10", 50.0, 9.0)])
    after = heater([("2026-01-16", "2026-01-20", 50.0, 9.0)], name="second")
    assert why(heating=(before,)) == NO_HEAT_ANY_MORE
    assert why(heating=(before, after)) == NOT_KNOWN  # one of the two heats again afterwards
    assert FLAT_OUT_SHARE == 0.95  # as the methods page says


# ---- losses by their cause


def lost(*rows: Any, told: Any = (), looks: Any = ()) -> list[tuple[str, list[float | None], int, int, bool]]:
    """Cause, losses, first and last day of January, and whether that is dated."""
    r = results(plantings=tuple(rows), inspections=tuple(looks))
    one_day = dt.timedelta(days=1)
    return [(e.cause, [c.lost for c in e.crops], e.start.day, (e.end - one_day).day, e.dated) for e in losses(r, told)]


def test_losses_of_one_cause_within_a_fortnight_are_one_event() -> None:
    """8 and 22 January are 14 days apart; the 23rd is another event; spelling does not divide a cause."""
    rows = (
        row("a", 1.0, "Slugs", "2026-01-22"),
        row("b", 2.0, "slugs", "2026-01-08"),
        row("c", 4.0, "mice", "2026-01-09"),
    )
    assert lost(*rows) == [("slugs", [2.0, 1.0], 8, 22, True), ("mice", [4.0], 9, 9, True)]
    later = (row("a", 1.0, "slugs", "2026-01-23"), row("b", 2.0, "slugs", "2026-01-08"))
    assert [one[1] for one in lost(*later)] == [[2.0], [1.0]]


def test_a_loss_without_a_day_goes_with_the_only_dated_one() -> None:
    """It lies between planting and clearing then; with two dated events, or none, it stands alone."""
    loose = row("c", 4.0, "slugs", cleared="2026-01-30")
    one = row("a", 1.0, "slugs", "2026-01-22")
    assert lost(one, loose) == [("slugs", [1.0, 4.0], 5, 30, True)]
    two = lost(one, row("b", 2.0, "slugs", "2026-01-07"), loose)
    assert two == [("slugs", [2.0], 7, 7, True), ("slugs", [1.0], 22, 22, True), ("slugs", [4.0], 5, 30, False)]
    assert lost(loose) == [("slugs", [4.0], 5, 30, False)]
    assert lost(row("c", 4.0))[0][0] == "no cause written"


def test_an_inspection_that_names_the_cause_dates_it() -> None:
    """From the first to the last look that found slugs in that crop and bed while it stood, and not of level 0."""
    looks = (
        look("2026-01-12", "many slugs"),
        look("2026-01-15", "slugs", crop="Pea", bed="east"),
        look("2026-01-20", "slugs", crop="leek"),
        look("2026-01-21", "slugs", bed="west"),
        look("2026-01-22", "no slugs", 0),
        look("2026-01-23", "mice"),
        look("2026-01-29", "slugs"),
    )
    pea = row("pea", 3.0, "slugs", bed="east", cleared="2026-01-28")
    assert lost(pea, looks=looks) == [("slugs", [3.0], 12, 15, True)]
    assert lost(row("pea", 3.0, "slugs", bed="east", cleared="2026-01-29"), looks=looks)[0][3] == 29
    assert lost(row("pea", 3.0, bed="east", cleared="2026-01-28"), looks=looks) == [
        ("no cause written", [3.0], 5, 28, False)
    ]


def test_what_is_told_elsewhere_lost_nothing_or_lies_outside_the_season_is_no_event() -> None:
    """By its number among the plantings; of 0; before 5 January or after 1 February."""
    rows = (row("a", 1.0, "frost", "2026-01-22"), row("b", 0.0, "slugs", "2026-01-22"), row("c", None, "slugs"))
    assert lost(*rows, told=(0,)) == [] and len(lost(*rows)) == 1
    assert lost(row("a", 1.0, "slugs", "2026-01-04")) == [] and lost(row("a", 1.0, "slugs", "2026-02-02")) == []
    assert len(lost(row("a", 1.0, "slugs", "2026-02-01"))) == 1 and len(lost(row("a", 1.0, "slugs", "2026-01-05"))) == 1


def test_a_loss_without_a_day_begins_with_the_planting_else_with_the_sowing() -> None:
    """Planted on the 9th, sown on the 7th: from the 9th; sown alone: from the 7th; neither: from the first day."""

    def first(planted: str | None, sown: str | None) -> int:
        made = row("c", 4.0, "slugs", cleared="2026-01-30")
        dates = {"planted": planted, "sown": sown}
        moved = dataclasses.replace(made, **{k: dt.date.fromisoformat(v) if v else None for k, v in dates.items()})
        return lost(moved)[0][2]

    assert (first("2026-01-09", "2026-01-07"), first(None, "2026-01-07"), first(None, None)) == (9, 7, 5)
