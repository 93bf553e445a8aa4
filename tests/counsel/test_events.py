"""Events of seasons whose every night is written by hand; each expected figure stands in the points themselves."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import pandas as pd
import pytest
from counsel.nights_by_hand import DIARY, FAN, PLANTED, PLUG, events_of, switched, table

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
from reportgen.counsel.said_events import quoted_lines

# 6 °C held; from 22:00 of 14 January down 2 K/h to −4 °C at 03:00, there until 06:00, back to 6 °C at 11:00.
NIGHT = {"2026-01-14 22:00": 6.0, "2026-01-15 03:00": -4.0, "2026-01-15 06:00": -4.0, "2026-01-15 11:00": 6.0}
OFF = ("2026-01-14 22:00", "2026-01-15 06:00")
HOUSE = FAN + PLUG


def cold(power: pd.Series | None = None, **more: float | dict[str, float]) -> pd.DataFrame:
    """The night, with a heater that ran or not."""
    values = table(**({"t": NIGHT, "o": -8.0} | more))
    values["p"] = switched([OFF]) if power is None else power
    return values


def test_a_failure_with_its_frost_its_line_and_its_crops_is_one_event(tmp_path: Path) -> None:
    """Heat off at 22:00, 0 °C crossed at 01:00: 180 minutes; under 0 °C until 08:00 (2 K/h from 06:00)."""
    planted = PLANTED + "kale,,,,2025-11-01,,3,2026-01-18,frost\nleek,,,,2025-11-01,,0,,\nchard,,,,2025-11-01,,,,\n"
    diary = DIARY + "2026-01-07,,event,First snow,,,,,,,\n2026-01-15,,event,Fan found standing,,,,,the fuse was out,,\n"
    diary += "2026-01-20,,event,Thaw,,,,,,,\n"
    (found,) = events_of(tmp_path / "s", cold(), HOUSE, diary=diary, plantings=planted)
    assert (found.kind, found.cause, found.source) == ("failure", HEAT_FAILED, "fan heater")
    assert found.start == pd.Timestamp("2026-01-14 22:00", tz="UTC")
    assert found.end == pd.Timestamp("2026-01-15 08:00", tz="UTC")
    assert found.line_crossed_after_min == pytest.approx(180.0, abs=0.1)
    assert found.hours == pytest.approx(47 / 6)  # 47 steps between the zeros of 22:00 and of 05:50
    assert (found.minimum_c, found.place) == (-4.0, "bench")
    assert found.outdoor_c == pytest.approx(-8.0, abs=0.11)
    assert found.diary == ("Fan found standing: the fuse was out",)
    assert not found.nobody_noted
    met = {crop.crop: (crop.coldest_c, crop.lost, crop.cause) for crop in found.crops}
    assert met == {"kale": (-4.0, 3.0, "frost"), "leek": (-4.0, 0.0, None), "chard": (-4.0, None, None)}


def test_a_line_of_another_day_is_quoted_with_its_date(tmp_path: Path) -> None:
    """The night of 14 to 15 January is the event's own; an absence that only runs through it is not, and of an event
    of several nights every line has its days."""
    diary = DIARY + "2026-01-12,,away,With family,,,,2026-01-16,,,\n2026-01-15,,event,Fan found standing,,,,,,,\n"
    (found,) = events_of(tmp_path / "a", cold(), HOUSE, diary=diary)
    assert quoted_lines(found) == ["“With family” (12\u00a0January to 16\u00a0January)", "“Fan found standing”"]
    dips = {"2026-01-05": 6.0}
    for day in (13, 14, 15):  # under the line round three midnights
        dips |= {f"2026-01-{day - 1:02d} 20:00": 6.0, f"2026-01-{day:02d} 00:00": -2.0, f"2026-01-{day:02d} 04:00": 6.0}
    diary = DIARY + "2026-01-12,,event,Door left ajar,,,,,,,\n2026-01-14,,event,Snow on the roof,,,,,,,\n"
    diary += "2026-01-15,,event,Snow on the roof,,,,,,,\n"
    (found,) = events_of(tmp_path / "b", cold(switched([]), t=dips), HOUSE, diary=diary)
    assert quoted_lines(found) == [
        "“Door left ajar” (12\u00a0January)", "“Snow on the roof” (14\u00a0January and 15\u00a0January)",
    ]  # fmt: skip


def test_nobody_noted_only_where_the_diary_is_kept_and_covers_the_night(tmp_path: Path) -> None:
    """A diary from 7 to 20 January without a line of the night; one that ends on the 8th; none at all."""
    around = DIARY + "2026-01-07,,event,First snow,,,,,,,\n2026-01-20,,event,Thaw,,,,,,,\n"
    before = DIARY + "2026-01-07,,event,First snow,,,,,,,\n2026-01-08,,event,Thaw,,,,,,,\n"
    told = [
        events_of(tmp_path / name, cold(), HOUSE, **books)[0].nobody_noted
        for name, books in (("a", {"diary": around}), ("b", {"diary": before}), ("c", {}))
    ]
    assert told == [True, False, False]


def test_an_empty_record_is_not_a_failure(tmp_path: Path) -> None:
    """The same night with the plug dead: what it did not write is not known."""
    values = cold()
    values.loc[values["p"] == 0.0, "p"] = float("nan")
    (found,) = events_of(tmp_path / "s", values, HOUSE)
    assert (found.kind, found.cause) == ("frost", NOT_KNOWN)


def test_a_door_that_stood_open_that_night(tmp_path: Path) -> None:
    """The heater ran at 700 W of 1000 and the diary says that the door stood open; a line of another night does not."""
    power = switched([])
    for day, cause in (("2026-01-14", OPEN_OR_ALTERED), ("2026-01-15", OPEN_OR_ALTERED), ("2026-01-17", NOT_KNOWN)):
        diary = DIARY + f"{day},,event,Door left open,,,,,,,\n"
        (found,) = events_of(tmp_path / day, cold(power), HOUSE, diary=diary)
        assert found.cause == cause, day
    diary = DIARY + "2026-01-14,,event,An owl in the garden,,,,,,,\n"
    (found,) = events_of(tmp_path / "owl", cold(power), HOUSE, diary=diary)
    assert (found.cause, found.diary) == (NOT_KNOWN, ("An owl in the garden",))


def test_heat_that_was_out_by_the_diary_s_own_time_has_its_minutes(tmp_path: Path) -> None:
    """Out at 22:30, 0 °C crossed at 01:00: 150 minutes; without a time none are told."""
    for time, minutes in (("22:30", 150.0), ("", None)):
        diary = DIARY + f"2026-01-14,{time},event,Fan heater stopped,,,,,,,\n"
        (found,) = events_of(tmp_path / f"t{time[:2]}", cold(switched([])), HOUSE, diary=diary)
        assert found.cause == HEAT_OUT
        assert found.line_crossed_after_min == (None if minutes is None else pytest.approx(minutes, abs=0.1))


def test_colder_than_the_heater_can(tmp_path: Path) -> None:
    """980 W of a heater of 1000 W all night; at 700 W it is not known."""
    flat_out = switched([], watts=300.0)
    flat_out[(cold()["time"] >= "2026-01-14 22:00") & (cold()["time"] < "2026-01-15 08:00")] = 980.0
    assert events_of(tmp_path / "a", cold(flat_out), HOUSE)[0].cause == TOO_COLD
    assert events_of(tmp_path / "b", cold(switched([])), HOUSE)[0].cause == NOT_KNOWN


def test_before_the_first_and_after_the_last_heat(tmp_path: Path) -> None:
    """Heat only from the 20th on, and only until the 10th; nothing that came before or after it failed."""
    late, early = switched([("2026-01-05", "2026-01-20")]), switched([("2026-01-10", "2026-02-10")])
    assert events_of(tmp_path / "a", cold(late), HOUSE)[0].cause == NO_HEAT_YET
    assert events_of(tmp_path / "b", cold(early), HOUSE)[0].cause == NO_HEAT_ANY_MORE


def test_spells_are_joined_within_two_days_and_never_longer_than_seven(tmp_path: Path) -> None:
    """Frosty hours at midnight of the 8th and of the 10th (46 h apart), and of the 20th: two events. Eight nights
    running: two events, the first no longer than seven days."""
    dips: dict[str, float] = {"2026-01-05": 6.0}
    for day in (8, 10, 20):
        at = pd.Timestamp(f"2026-01-{day:02d}")
        dips |= {str(at - pd.Timedelta("2h")): 6.0, str(at): -2.0, str(at + pd.Timedelta("2h")): 6.0}
    apart = events_of(tmp_path / "a", cold(switched([]), t=dips), HOUSE)
    assert sorted((e.start.day, e.end.day, e.nights) for e in apart) == [(7, 10, 2), (19, 20, 1)]
    for day in range(8, 18):
        at = pd.Timestamp(f"2026-01-{day:02d}")
        dips |= {str(at - pd.Timedelta("2h")): 6.0, str(at): -2.0, str(at + pd.Timedelta("2h")): 6.0}
    running = events_of(tmp_path / "b", cold(switched([]), t=dict(sorted(dips.items()))), HOUSE)
    assert all(e.end - e.start <= pd.Timedelta(days=7) for e in running)
    ordered = sorted(running, key=lambda e: e.start)
    assert all(a.end <= b.start for a, b in pairwise(ordered))


def test_an_unheated_house_tells_three_spells_below_a_band_and_not_the_frost_line(tmp_path: Path) -> None:
    """Kale is harmed from −4 °C down (frost_crops): five nights of −3, −5, −8, −6 and −7 °C, the three coldest are
    told; without a crop whose band is known nothing is."""
    dips: dict[str, float] = {"2026-01-05": 2.0}
    for day, low in ((7, -3.0), (11, -5.0), (15, -8.0), (19, -6.0), (23, -7.0)):
        at = pd.Timestamp(f"2026-01-{day:02d} 04:00")
        dips |= {str(at - pd.Timedelta("4h")): 2.0, str(at): low, str(at + pd.Timedelta("4h")): 2.0}
    kale = PLANTED + "kale,,,,2025-11-01,,,,\n"
    found = events_of(tmp_path / "a", cold(t=dips), plantings=kale)
    assert [(e.start.day, e.minimum_c, e.cause) for e in found] == [
        (15, -8.0, UNHEATED), (23, -7.0, UNHEATED), (19, -6.0, UNHEATED),
    ]  # fmt: skip
    assert events_of(tmp_path / "b", cold(t=dips), plantings=PLANTED + "moon cabbage,,,,2025-11-01,,,,\n") == ()


def test_losses_are_events_of_their_own_cause(tmp_path: Path) -> None:
    """Mould took nine in two rows, slugs four; none of it is the frost's, though mould was dated two days after."""
    rows = "kale,,,,2025-11-01,,5,2026-01-17,grey mould\nleek,,,,2025-11-01,,4,2026-01-19,Grey mould\n"
    rows += "chard,,,,2025-11-01,,4,,slugs\npea,,,,2025-11-01,,2,2026-01-16,frost\n"
    seen = "date,bed,crop,found,level\n2026-01-20,,chard,slugs on the young leaves,2\n2026-01-21,,chard,nothing,0\n"
    found = events_of(tmp_path / "s", cold(), HOUSE, plantings=PLANTED + rows, inspections=seen)
    told = {(e.kind, e.cause): sum(c.lost or 0.0 for c in e.crops) for e in found}
    assert told == {("failure", HEAT_FAILED): 2.0, ("loss", "grey mould"): 9.0, ("loss", "slugs"): 4.0}
    slugs = next(e for e in found if e.cause == "slugs")
    assert (slugs.start.date(), slugs.dated) == (pd.Timestamp("2026-01-20").date(), True)


def test_a_frost_loss_belongs_to_one_event_or_to_none(tmp_path: Path) -> None:
    """Two failures in a week: the loss of the 20th belongs to the colder one alone. A loss of 14 days and a day later
    is an event of its own."""
    dips = {
        **NIGHT,
        "2026-01-18 22:00": 6.0, "2026-01-19 02:00": -2.0, "2026-01-19 06:00": -2.0, "2026-01-19 10:00": 6.0,
    }  # fmt: skip
    power = switched([OFF, ("2026-01-18 22:00", "2026-01-19 06:00")])
    near = events_of(
        tmp_path / "a", cold(power, t=dips), HOUSE, plantings=PLANTED + "pea,,,,2025-11-01,,2,2026-01-20,frost\n"
    )
    assert sorted((e.kind, e.minimum_c, e.crops[0].lost) for e in near) == [
        ("failure", -4.0, 2.0),
        ("failure", -2.0, 0.0),
    ]
    far = events_of(tmp_path / "b", cold(), HOUSE, plantings=PLANTED + "pea,,,,2025-11-01,,2,2026-01-30,frost\n")
    assert sorted((e.kind, e.crops[0].lost) for e in far) == [("failure", 0.0), ("loss", 2.0)]
