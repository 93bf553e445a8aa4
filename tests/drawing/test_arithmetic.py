"""The pen's arithmetic against tables, closed forms and reference libraries."""

from __future__ import annotations

import math
import re
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import isotonic_regression
from scipy.stats import t as student

from reportgen.drawing import trace
from reportgen.drawing.apart import apart
from reportgen.drawing.axis import Scale, fitting, outward
from reportgen.drawing.doubt import LEVELS, by_t, one_band
from reportgen.drawing.pair import above
from reportgen.drawing.ribbon import ribbon, steps
from reportgen.drawing.widths import balanced, shorten, width_of, wrap

FONTS = Path("/usr/share/fonts/truetype/dejavu")
# NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.2: upper critical values of Student's t (0.90 and 0.975).
TABLE = {1: (3.078, 12.706), 2: (1.886, 4.303), 5: (1.476, 2.571), 10: (1.372, 2.228), 30: (1.310, 2.042)}


@pytest.mark.parametrize("dof", TABLE)
def test_doubt_bars_by_the_printed_table_of_t(dof: int) -> None:
    """95 and 80 % bars are ± t(0.975) and t(0.90) standard errors; the table has three decimals."""
    found = by_t(2.0, 0.5, dof)
    eighty, ninety_five = TABLE[dof]
    assert found.bands[0].high - 2.0 == pytest.approx(0.5 * ninety_five, abs=0.0003)
    assert found.bands[1].high - 2.0 == pytest.approx(0.5 * eighty, abs=0.0003)


def test_the_half_bar_by_closed_forms() -> None:
    """t(0.75) is 1 for one degree of freedom (Cauchy's quartile) and √(2/3) for two (closed form of that case)."""
    assert by_t(0.0, 1.0, 1).bands[2].high == pytest.approx(1.0, abs=1e-9)
    assert by_t(0.0, 1.0, 2).bands[2].high == pytest.approx(math.sqrt(2 / 3), abs=1e-9)


@given(st.floats(-5, 5), st.floats(0.01, 3), st.integers(1, 200))
@settings(max_examples=40)
def test_doubt_bars_agree_with_the_reference_library(estimate: float, se: float, dof: int) -> None:
    """scipy's own distribution, another code path than its inverse that the pen uses; nested and symmetric."""
    found = by_t(estimate, se, dof)
    for level, band in zip(LEVELS, found.bands, strict=True):
        held = student.cdf((band.high - estimate) / se, dof) - student.cdf((band.low - estimate) / se, dof)
        assert held == pytest.approx(level, abs=1e-6)
    assert all(a.low <= b.low <= b.high <= a.high for a, b in pairwise(found.bands))


def test_a_doubt_turned_around_keeps_low_below_high() -> None:
    """Less is better: the factor is negative."""
    turned = one_band(-4.0, -6.0, -1.0).scaled(-0.5)
    assert (turned.low, turned.estimate, turned.high) == (0.5, 2.0, 3.0)


@pytest.mark.parametrize(("file", "bold"), [("DejaVuSans.ttf", False), ("DejaVuSans-Bold.ttf", True)])
def test_widths_are_those_of_the_font(file: str, bold: bool) -> None:
    """Each word as the font itself measures it, where it is installed: never narrower, at most 4 % wider."""
    if not (FONTS / file).is_file():
        pytest.skip("DejaVu Sans is not installed: Debian's package fonts-dejavu-core")
    from PIL import ImageFont

    font = ImageFont.truetype(FONTS / file, 1000, layout_engine=ImageFont.Layout.BASIC)
    for words in (
        "Bubble film inside the roof – helped",
        "−14.9° outdoors, 1.2° inside",
        "Žluťoučký kůň × Größe",
        "5 °C",
    ):
        true = font.getlength(words, features=None) / 1000 * 14
        assert true * 0.999 <= width_of(words, 14, bold=bold) <= true * 1.04


@given(
    st.text(st.characters(codec="utf-8", exclude_categories=("C", "Z"), include_characters=" "), max_size=90),
    st.floats(20, 400),
)
@settings(max_examples=60)
def test_words_are_cut_to_the_room(words: str, room: float) -> None:
    """Lines keep to the width, and to three; an ellipsis alone may stand in no room at all."""
    least = width_of("…", 14)
    assert width_of(shorten(words, 14, room), 14) <= max(room, least)
    lines = wrap(words, 14, room)
    assert len(lines) <= 3 and all(width_of(line, 14) <= max(room, least) for line in lines)
    bare = words.replace(" ", "")
    assert all("".join(lines).replace(" ", "") == bare for lines in balanced(words, 14))


@given(
    st.lists(st.tuples(st.floats(0, 500), st.floats(5, 40)), min_size=1, max_size=12),
)
@settings(max_examples=60)
def test_labels_pushed_apart_move_least(wishes: list[tuple[float, float]]) -> None:
    """No overlap, in order, between both ends where they fit; as near as the reference's isotonic regression."""
    wishes.sort()
    tops, heights = [w for w, _ in wishes], [h for _, h in wishes]
    found = apart(tops, heights, 0.0, 600.0, 2.0)
    for n, (a, b) in enumerate(pairwise(found)):
        assert b >= a + heights[n] + 2.0 - 1e-6
    if sum(heights) + 2.0 * (len(heights) - 1) <= 600.0:
        assert found[0] >= -1e-6 and found[-1] + heights[-1] <= 600.0 + 1e-6
    free = apart(tops, heights, -1e9, 1e9, 2.0)
    above = np.concatenate([[0.0], np.cumsum(np.asarray(heights[:-1]) + 2.0)])
    assert free == pytest.approx(list(isotonic_regression(np.asarray(tops) - above).x + above), abs=1e-6)


@given(st.floats(-60, 60), st.floats(0.1, 90), st.sampled_from([5.0, 10.0]), st.sampled_from([0.0, 2.0, 32.0]))
@settings(max_examples=60)
def test_an_axis_holds_its_values_and_rises(low: float, span: float, step: float, heavy: float) -> None:
    """Whole steps outward, ticks in order, the heavy value among them where it lies inside; scales rise."""
    axis = outward([low, low + span, None], step, lambda v: f"{v:g}", heavy)
    assert axis.low <= low + 1e-6 and axis.high >= low + span - 1e-6
    assert axis.low % step == pytest.approx(0.0, abs=1e-6) or axis.low % step == pytest.approx(step)
    spots = [tick.at for tick in axis.ticks]
    assert spots == sorted(set(spots))
    assert (heavy in spots) == (axis.low <= heavy <= axis.high)
    y = Scale(low=axis.low, high=axis.high, start=200.0, end=0.0)
    assert all(y(a) > y(b) for a, b in pairwise(spots))
    kept = [y(tick.at) for tick in fitting(axis.ticks, y, 18.0, heavy)]
    assert all(a - b >= 18.0 - 1e-6 for a, b in pairwise(kept))


def test_fahrenheit_has_its_frost_line() -> None:
    """32 stands in the place of 30, which is too near."""
    assert [t.at for t in outward([11.0, 58.0], 10.0, str, 32.0).ticks] == [10.0, 20.0, 32.0, 40.0, 50.0, 60.0]


@given(st.lists(st.tuples(st.floats(0.2, 90), st.floats(-900, 900)), min_size=2, max_size=40), st.integers(0, 40))
@settings(max_examples=60)
def test_path_data_reads_back_within_half_a_tenth(steps_: list[tuple[float, float]], gap: int) -> None:
    """Each point of the path, followed step by step by the grammar, is within rounding; no drift along the way."""
    x, points = 0.0, list[tuple[float, float] | None]()
    for dx, y in steps_:
        x += dx
        points.append((x, y))
    points.insert(gap, None)
    known = [p for p in points if p is not None]
    read = _read(trace.polyline(points).replace("h0", ""))
    assert len(read) == len(known)
    for a, b in zip(read, known, strict=True):
        assert a == pytest.approx(b, abs=0.0501)


def _read(d: str) -> list[tuple[float, float]]:
    """Points of a path of M, l, h and v."""
    out: list[tuple[float, float]] = []
    x = y = 0.0
    for letter, rest in re.findall(r"([Mlhv])([^Mlhv]*)", d):
        numbers = [float(v) for v in re.findall(r"-?(?:\d+\.?\d*|\.\d+)", rest)]
        if letter == "M":
            x, y = numbers
        else:
            x += numbers[0] if letter in "lh" else 0.0
            y += numbers[-1] if letter in "lv" else 0.0
        out.append((x, y))
    return out


def test_a_lone_point_is_a_dot() -> None:
    """Between two gaps: a line of no length, seen by its round ends."""
    assert trace.polyline([None, (1.0, 2.0), None, (3.0, 2.0), (5.0, 2.0)]) == "M1 2h0M3 2h2"


def test_the_ribbon_is_two_step_lines_and_the_frost() -> None:
    """A day a unit; level days are one step; a gap breaks the line; only nights under the line are filled."""
    assert steps([5, 5, 5, 2, None, 7]) == "M0 5h3v-3h1M5 7h1"
    svg = ribbon([3.0, -2.0, None, 4.0], [1.0, -6.0, -5.0, 2.0], 0.0)
    assert svg.count("<path") == 4 and 'aria-hidden="true"' in svg and svg.count("M1 ") == 1
    assert ribbon([None], [], 0.0) == ""
    assert ribbon([3.0, 4.0], [], 0.0).count("<path") == 2
    winter = [3.0 + 6 * math.sin(n / 9) + (n * 7 % 5) for n in range(184)]
    assert len(ribbon(winter, [v - 4 - n % 3 for n, v in enumerate(winter)], 0.0)) < 2_600


def test_a_line_runs_along_what_its_figure_cannot_be_under() -> None:
    """6 − 2·x from −1 to 5: 8 there, 0 at 3, then along 0; wholly under it all along; without a floor as it is."""
    assert above((-1.0, 5.0), 6.0, -2.0, 0.0) == [(-1.0, 8.0), (3.0, 0.0), (5.0, 0.0)]
    assert above((4.0, 5.0), 6.0, -2.0, 0.0) == [(4.0, 0.0), (5.0, 0.0)]
    assert above((-1.0, 5.0), 6.0, -2.0, None) == [(-1.0, 8.0), (5.0, -4.0)]
