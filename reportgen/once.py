"""Worked out once: what rests on a season or a channel alone is kept for as long as that lives."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import TypeVar
from weakref import WeakKeyDictionary

K = TypeVar("K")
V = TypeVar("V")


def once(work: Callable[[K], V]) -> Callable[[K], V]:
    """`work`, asked once for each object that it is given.

    The object must be frozen and be told apart by identity; the result is handed out again, so nobody may write to it,
    and it must not hold the object itself, or neither would ever be let go.
    """
    kept: WeakKeyDictionary[K, V] = WeakKeyDictionary()

    @wraps(work)
    def told(of: K) -> V:
        if of not in kept:
            kept[of] = work(of)
        return kept[of]

    return told
