"""Times read by the `time_format` that season.toml gives."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from reportgen.readings.digits import Ints
from reportgen.readings.stamps import DAY_MS, NAT, Stamps, read_stamps


def read_by_format(texts: Sequence[str], time_format: str) -> Stamps:
    """Times of the given strptime format; others are unreadable.

    Where the format only settles the order of day and month of texts that are understood anyway, they are read the
    quick way; the format has the last word.
    """
    quick = _quick(texts, time_format)
    if quick is not None:
        return quick
    written, late = _midnights(pd.Series(texts, dtype=str).str.strip(), time_format)
    parsed = pd.to_datetime(written, format=time_format, errors="coerce", utc="%z" in time_format)
    stamps = _as_stamps(pd.DatetimeIndex(parsed), "%z" in time_format)
    stamps.clock_ms[late & stamps.readable] += DAY_MS
    return stamps


def _midnights(texts: pd.Series, time_format: str) -> tuple[pd.Series, NDArray[np.bool_]]:
    """Where the hour stands by itself, 24 is the midnight that ends the day: such texts with 0, and which they are."""
    none = np.zeros(len(texts), dtype=bool)
    words = time_format.split()
    if "%H" not in words:
        return texts, none
    before = words.index("%H")
    late = texts.str.match(rf"(?:\S+\s+){{{before}}}24(?:\s+0+)*$").to_numpy(dtype=bool)
    if not late.any():
        return texts, none
    return texts.where(~late, texts.str.replace(rf"^((?:\S+\s+){{{before}}})24", r"\g<1>00", regex=True)), late


def _as_stamps(times: pd.DatetimeIndex, with_offset: bool) -> Stamps:
    bare = times.tz_localize(None) if times.tz is not None else times
    good = ~np.asarray(bare.isna())
    ms = np.where(good, bare.to_numpy().astype("datetime64[ms]").astype(np.int64), 0)
    date = (ms // DAY_MS).astype("datetime64[D]")
    month = date.astype("datetime64[M]")
    return Stamps(
        year=date.astype("datetime64[Y]").astype(np.int64) + 1970,
        second=month.astype(np.int64) % 12 + 1,
        first=(date - month.astype("datetime64[D]")).astype(np.int64) + 1,
        clock_ms=ms % DAY_MS,
        offset_ms=np.where(good & with_offset, 0, NAT),
        open=np.zeros(len(ms), dtype=bool),
        readable=good,
        shape=np.where(good, 0, -1),
        shapes=[],
    )


def _quick(texts: Sequence[str], time_format: str) -> Stamps | None:
    """The texts read by shape, with day and month put as the format says; None where the two differ on a sample."""
    stamps = read_stamps(texts)
    places = [time_format.find(f"%{letter}") for letter in "dm"]
    if -1 in places or not len(texts) or not stamps.readable.all():
        return None
    if places[0] > places[1]:
        swap = stamps.open
        first = np.where(swap, stamps.second, stamps.first)
        stamps.second = np.where(swap, stamps.first, stamps.second)
        stamps.first = first
    stamps.open = np.zeros(len(texts), dtype=bool)
    rows = np.unique(np.concatenate([np.linspace(0, len(texts) - 1, 200).astype(int), _one_a_shape(stamps)]))
    sample = pd.Series([texts[row].strip() for row in rows])
    told = pd.to_datetime(sample, format=time_format, errors="coerce", utc="%z" in time_format)
    wall = pd.DatetimeIndex(told).tz_localize(None) if "%z" in time_format else pd.DatetimeIndex(told)
    if bool(wall.isna().any()):
        return None
    naive = stamps.naive(True)[rows]
    if "%z" in time_format:
        naive = naive - stamps.offset_ms[rows]
    same = np.array_equal(wall.to_numpy().astype("datetime64[ms]").astype(np.int64), naive)
    return stamps if same else None


def _one_a_shape(stamps: Stamps) -> Ints:
    return np.unique(stamps.shape, return_index=True)[1]
