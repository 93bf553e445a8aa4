"""From readings to the hours of the balance: what is logged, dark, one state or another, and what is refused."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from types import MappingProxyType

import numpy as np
import pandas as pd
import pytest
from heated_house import LOSS_W_PER_K, hours, house
from made_season import ZONE
from measures.house.bare import plain_hours

from reportgen.measures.house.season import _whole, house_hours, house_model
from reportgen.measures.house.states import states_of
from reportgen.readings.lever_types import Lever, State
from reportgen.readings.types import DiaryEntry, Readings


def entry(line: int, day: str, kind: str, touches: tuple[str, ...] = (), hopes: tuple[str, ...] = ()) -> DiaryEntry:
    """A line of the diary."""
    return DiaryEntry(
        line=line, date=dt.date.fromisoformat(day), time=None, kind=kind, what=f"line {line}", touches=touches,
        reversible=True, hoped_for=hopes, until=None, cost=None, years=None, written=None, note="",
    )  # fmt: skip


def lever(name: str, line: int, start: str, end: str, touches: tuple[str, ...] = ("envelope",)) -> Lever:
    """A lever that was on from one local midnight to another."""
    on = State(from_=pd.Timestamp(start, tz=ZONE), to=pd.Timestamp(end, tz=ZONE), on=True)
    return Lever(
        name=name, thing=None, touches=touches, entries=(dt.date.fromisoformat(start),), states=(on,),
        hours_on=on.hours, hours_off=0.0, reasons=MappingProxyType({}), lines=(line,), undone=MappingProxyType({}),
    )  # fmt: skip


def test_every_hour_of_a_whole_record_is_logged_and_its_power_is_the_heaters() -> None:
    """56 days of 24 hours in standard time; the loss of that house comes back."""
    made = house()
    found, first, whole, states = house_hours(made)
    assert (found.count, first, len(states)) == (56 * 24, dt.date(2026, 1, 5), 1)
    assert found.logged.all() and whole.all()
    told = house_model(made)
    assert told.house is not None and told.house.balance.loss_w_k[0] == pytest.approx(LOSS_W_PER_K, rel=0.02)


def test_an_event_takes_its_garden_days_out_of_the_fit_and_nothing_else() -> None:
    """A door ajar on 20 January: from noon before to noon after is not fitted."""
    made = replace(house(), diary=(entry(2, "2026-01-20", "event"),))
    found, *_ = house_hours(made)
    out = np.flatnonzero(~found.logged)
    assert (int(out[0]), int(out[-1]) + 1) == (14 * 24 + 12, 16 * 24 + 12)


def test_a_gap_is_bridged_but_not_logged_and_a_long_one_spoils_its_night() -> None:
    """Two hours missing at 22 h leave the night whole; six do not."""
    for lost_h, stays in ((2, True), (6, False)):
        made = house()
        start = hours()[20 * 24 + 21]
        air = made.channels[0].values
        cut = air[(air.index < start) | (air.index >= start + pd.Timedelta(hours=lost_h))]
        found, _, whole, _ = house_hours(
            replace(made, channels=(replace(made.channels[0], values=cut), made.channels[1]))
        )
        assert not found.logged[20 * 24 + 21 : 20 * 24 + 21 + lost_h].any()
        assert np.isfinite(found.temp_air_c).all()
        assert bool(whole[20]) is stays


def test_a_night_is_whole_with_three_hours_missing_on_end_wherever_they_lie() -> None:
    """18 to 9 h is 15 hours of the day 18 to 33. Three on end are bridged, four are not; two and two with an hour
    between are; what is missing before 18 h or after 9 h is none of it. A day alone has no night."""
    for lost, stays in (
        ([18, 19, 20], True), ([18, 19, 20, 21], False), ([29, 30, 31, 32], False), ([30, 31, 32], True),
        ([14, 15, 16, 17], True), ([33, 34, 35, 36], True), ([22, 23, 25, 26], True), ([15, 16, 17, 18], True),
    ):  # fmt: skip
        both = np.ones(72, dtype=bool)
        both[lost] = False
        assert _whole(both, plain_hours(72)).tolist() == [stays, True], lost
    for count, nights in ((32, 0), (33, 1), (56, 1), (57, 2)):  # the night of the first evening ends with hour 33
        assert _whole(np.ones(count, dtype=bool), plain_hours(count)).shape == (nights,)


def test_without_a_place_dark_is_21_to_5_h_and_there_is_no_sun() -> None:
    """The clock's own night; a probe is then not used either."""
    found, *_ = house_hours(house())
    hour = np.arange(found.count) % 24
    assert (found.dark == ((hour >= 21) | (hour < 5))).all()
    assert found.sun_w_m2 is None and found.temp_soil_c is None


def test_states_are_combinations_of_levers_spells_pooled() -> None:
    """Film from the 20th day on, a curtain for two days: too short for a state of its own, it stays with the film's."""
    film, curtain = lever("film", 2, "2026-01-25", "2026-03-02"), lever("curtain", 3, "2026-02-10", "2026-02-12")
    diary = (entry(2, "2026-01-25", "change", ("envelope",), ("less heating",)), entry(3, "2026-02-10", "spell"))
    made = replace(house(), levers=(film, curtain), diary=diary)
    found, _, _, states = house_hours(made)
    assert [state.on for state in states] == [(), ("film",)]
    assert (found.state[: 20 * 24] == 0).all() and (found.state[20 * 24 :] == 1).all()


def test_a_lever_of_water_or_of_drier_air_alone_makes_no_state() -> None:
    """Only what touches cover or air, and was hoped to warm or to save heat (or nothing was hoped)."""
    made: Readings = house()
    seconds = np.array([stamp.timestamp() for stamp in hours()])
    dry = replace(
        made,
        levers=(
            lever("fan", 2, "2026-01-25", "2026-03-02", ("air",)),
            lever("water", 3, "2026-01-25", "2026-03-02", ("water",)),
        ),
        diary=(
            entry(2, "2026-01-25", "change", ("air",), ("drier air",)),
            entry(3, "2026-01-25", "change", ("water",)),
        ),
    )
    assert len(states_of(dry, seconds)[1]) == 1


def test_no_heater_no_house() -> None:
    """Without a heater there is nothing to fit, and the reason says so."""
    found = house_model(replace(house(), heating=()))
    assert found.house is None and "no heater" in found.why
    assert (len(found.whole), found.evenings(), found.first) == (0, [], dt.date(2026, 1, 5))
