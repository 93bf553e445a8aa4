"""Local clocks of the world → instants, held to the standard library's own zones (the IANA list)."""

from __future__ import annotations

import datetime as dt
from zoneinfo import ZoneInfo

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from reportgen.readings.clock import to_utc
from reportgen.readings.stamps import NAT

ZONES = ["Europe/Prague", "America/New_York", "America/St_Johns", "Pacific/Auckland", "Asia/Kolkata", "Europe/Dublin"]
EPOCH = dt.datetime(1970, 1, 1)


def written(instants: list[int], zone: ZoneInfo) -> np.ndarray:
    """What a local clock shows at those seconds since 1970 [ms]."""
    walls = [dt.datetime.fromtimestamp(second, zone).replace(tzinfo=None) for second in instants]
    return np.asarray([int((wall - EPOCH).total_seconds()) * 1000 for wall in walls], dtype=np.int64)


@given(
    zone=st.sampled_from(ZONES),
    start=st.datetimes(dt.datetime(2015, 1, 1), dt.datetime(2027, 1, 1)),
    minutes=st.sampled_from([5, 10, 15, 20, 30, 60]),
    late=st.integers(0, 299),
)
def test_a_steady_log_comes_back_as_its_instants(zone: str, start: dt.datetime, minutes: int, late: int) -> None:
    """Half a year at any step that divides the hour holds a change of the clock: every instant is recovered."""
    own = ZoneInfo(zone)
    begin = int(start.replace(tzinfo=dt.UTC).timestamp()) // 3600 * 3600 + late
    instants = np.arange(begin, begin + 200 * 86_400, minutes * 60, dtype=np.int64)
    changing = _near_changes(instants, own)
    found = to_utc(written(instants[changing].tolist(), own), "local", own)
    assert not found.missing.any()
    assert found.once == 0
    assert found.utc.tolist() == (instants[changing] * 1000).tolist()


def _near_changes(instants: np.ndarray, zone: ZoneInfo) -> np.ndarray:
    """Rows within three hours of a change of the zone's offset, or the first twenty where there is none."""
    days = np.arange(instants[0] - 86_400, instants[-1] + 86_400, 3600)
    offsets = np.asarray([dt.datetime.fromtimestamp(int(day), zone).utcoffset() for day in days])
    turns = days[1:][offsets[1:] != offsets[:-1]]
    near = np.zeros(len(instants), dtype=bool)
    for turn in turns:
        near |= np.abs(instants - turn) <= 3 * 3600
    return near if near.any() else np.arange(len(instants)) < 20


@settings(deadline=None)  # a span of a century takes its time on a busy machine
@given(st.lists(st.one_of(st.just(NAT), st.integers(0, 4_000_000_000_000)), max_size=40), st.sampled_from(ZONES))
def test_any_clock_gives_an_instant_or_none(naive: list[int], zone: str) -> None:
    """Times in any order: a readable one is within a day of itself, or in an hour that never was."""
    found = to_utc(np.asarray(naive, dtype=np.int64), "local", ZoneInfo(zone))
    for wall, utc, missing in zip(naive, found.utc.tolist(), found.missing.tolist(), strict=True):
        assert (utc == NAT) == (wall == NAT or missing)
        assert utc == NAT or abs(utc - wall) <= 15 * 3_600_000
