"""Texts → the numbers in them and their shape, many at once.

The shape of a text is everything but its digits, and how long each number is where it has three digits or more:
`2/1/2022 0:04` and `12/31/2022 23:59` are of one shape. A column of times has few shapes; each is understood once.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Ints = NDArray[np.int64]
RUNS = 9  # numbers kept of a text: a time with date, seconds, fraction and offset has nine
CHUNK = 65_536  # texts at once: keeps the scratch arrays in the cache
_TABLE = np.random.default_rng(20_251_018).integers(1, 2**63, size=(16, 8, 256), dtype=np.uint64)
_LENGTHS = np.random.default_rng(20_260_412).integers(1, 2**63, size=(16, 24), dtype=np.uint64)


@dataclass(frozen=True, kw_only=True, slots=True)
class Digits:
    """`numbers`, `lengths`: shape (texts, RUNS), 0 where there is none. `shape`: equal for texts of one shape."""

    numbers: Ints
    lengths: Ints
    shape: NDArray[np.uint64]


def digits(texts: Sequence[str]) -> Digits:
    """The numbers of each text in order, and its shape; a text must hold no line end."""
    parts = [_chunk(texts[at : at + CHUNK]) for at in range(0, len(texts), CHUNK)] or [_chunk([])]
    return Digits(
        numbers=np.concatenate([part.numbers for part in parts]),
        lengths=np.concatenate([part.lengths for part in parts]),
        shape=np.concatenate([part.shape for part in parts]),
    )


def _chunk(texts: Sequence[str]) -> Digits:
    count = len(texts)
    numbers, lengths = np.zeros((count, RUNS), dtype=np.int64), np.zeros((count, RUNS), dtype=np.int64)
    if not count:
        return Digits(numbers=numbers, lengths=lengths, shape=np.zeros(0, dtype=np.uint64))
    raw = np.frombuffer(("\n" + "\n".join(texts) + "\n").encode(errors="replace"), dtype=np.uint8)
    if count > 1 and (even := _even(raw, count)) is not None:
        return even
    digit = (raw >= 48) & (raw <= 57)
    starts = np.flatnonzero(digit[1:] & ~digit[:-1]) + 1
    ends = np.flatnonzero(~digit[1:] & digit[:-1]) + 1
    breaks = np.flatnonzero(raw == 10)
    first = np.searchsorted(starts, breaks)  # the first run of each text
    owner = np.repeat(np.arange(count), np.diff(first))
    order = np.arange(len(starts)) - first[owner] if len(starts) else np.empty(0, dtype=np.int64)
    length = ends - starts
    kept = order < RUNS
    numbers[owner[kept], order[kept]] = _values(raw, starts[kept], length[kept])
    lengths[owner[kept], order[kept]] = length[kept]
    return Digits(numbers=numbers, lengths=lengths, shape=_shapes(raw, digit, breaks, owner, order, length, count))


def _even(raw: NDArray[np.uint8], count: int) -> Digits | None:
    """The quick way for texts that all have their digits in the same places; None when they have not."""
    width, left = divmod(len(raw) - 1, count)
    if left:
        return None
    grid = raw[1:].reshape(count, width)
    model = grid[0]
    is_digit = (model >= 48) & (model <= 57)
    low, high = grid.min(axis=0), grid.max(axis=0)
    if not bool(np.where(is_digit, (low >= 48) & (high <= 57), (low == model) & (high == model)).all()):
        return None
    one = _chunk([model[:-1].tobytes().decode(errors="replace")])
    starts = np.flatnonzero(is_digit & ~np.concatenate([[False], is_digit[:-1]]))
    numbers = np.zeros((count, RUNS), dtype=np.int64)
    for run, start in enumerate(starts[:RUNS]):
        for place in range(start, start + min(int(one.lengths[0, run]), 15)):
            numbers[:, run] = numbers[:, run] * 10 + grid[:, place] - 48
    return Digits(numbers=numbers, lengths=np.repeat(one.lengths, count, axis=0), shape=np.repeat(one.shape, count))


def _values(raw: NDArray[np.uint8], starts: Ints, length: Ints) -> Ints:
    """The value of each run of digits, at most 15 digits of it."""
    value = np.zeros(len(starts), dtype=np.int64)
    for k in range(min(int(length.max(initial=0)), 15)):
        more = length > k
        if more.all():
            value = value * 10 + raw[starts + k] - 48
        else:
            value[more] = value[more] * 10 + raw[starts[more] + k] - 48
    return value


def _shapes(
    raw: NDArray[np.uint8],
    digit: NDArray[np.bool_],
    breaks: Ints,
    owner: Ints,
    order: Ints,
    length: Ints,
    count: int,
) -> NDArray[np.uint64]:
    """A 64-bit mark of each text's shape; two shapes share one by chance of about 1 in 10¹⁹."""
    other = np.flatnonzero(~digit & (raw != 10))
    line = np.searchsorted(breaks, other) - 1
    runs_before = np.cumsum(np.diff(digit.astype(np.int8), prepend=0) == 1)
    run = np.minimum(runs_before[other] - runs_before[breaks[line]], 15)
    since = np.zeros(len(other), dtype=np.int64)
    if len(other):
        fresh = np.concatenate([[True], np.diff(other) > 1])
        since = np.arange(len(other)) - np.maximum.accumulate(np.where(fresh, np.arange(len(other)), 0))
    marks = _TABLE[run, np.minimum(since, 7), raw[other]]
    shape = _summed(marks, line, count)
    long = np.where(length >= 3, np.minimum(length, 23), 0)
    return shape + _summed(_LENGTHS[np.minimum(order, 15), long], owner, count)


def _summed(marks: NDArray[np.uint64], owner: Ints, count: int) -> NDArray[np.uint64]:
    """Marks added up (they wrap round) for each text; `owner` rises."""
    total = np.concatenate([np.zeros(1, dtype=np.uint64), np.cumsum(marks, dtype=np.uint64)])
    edges = np.searchsorted(owner, np.arange(count + 1))
    summed: NDArray[np.uint64] = total[edges[1:]] - total[edges[:-1]]
    return summed
