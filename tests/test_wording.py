"""Shares of hours as the reader sees them: all and nothing are words, and only of all and of nothing."""

from __future__ import annotations

import pytest

from reportgen.wording import share_in, share_of, share_time, share_words


@pytest.mark.parametrize(
    ("share", "figure", "of", "time"),
    [
        (0.0, "0\u00a0%", "none", "at no time"),
        (0.004, "under 1\u00a0%", "under 1\u00a0%", "under 1\u00a0% of the time"),
        (0.42, "42\u00a0%", "42\u00a0%", "42\u00a0% of the time"),
        (0.995, "over 99\u00a0%", "over 99\u00a0%", "over 99\u00a0% of the time"),
        (1.0, "100\u00a0%", "all", "all of the time"),
    ],
)
def test_all_and_nothing_are_said_only_of_all_and_of_nothing(share: float, figure: str, of: str, time: str) -> None:
    """99.5 % does not become 100 %, and 0.4 % not 0 %."""
    assert (share_words(share), share_of(share), share_time(share)) == (figure, of, time)


def test_of_hours_that_were_counted() -> None:
    """All three of them, none, two of three (67 %), and the only one."""
    told = [share_in(n / 3, 3.0, "damp hour") for n in (3, 0, 2)]
    assert told == [f"in {part} of the 3\u00a0damp hours" for part in ("every one", "none", "67\u00a0%")]
    assert share_in(1.0, 1.0, "damp hour") == "in the one damp hour"


def test_the_time_on_record() -> None:
    assert share_time(0.0, "of the time on record") == "at no time on record"
    assert share_time(1.0, "of the time on record") == "all of the time on record"
