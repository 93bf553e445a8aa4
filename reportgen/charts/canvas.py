"""One drawing at one width: primitives in plot units that end up as layers of an altair chart.

Every position is worked out here, in units from the plot's upper left corner, and handed to altair with identity
scales. So words can be kept apart before anything is drawn, and no chart depends on the machine's zone or fonts.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

import altair as alt
import numpy as np
from numpy.typing import NDArray

from reportgen.charts import theme
from reportgen.charts.theme import Size

Floats = NDArray[np.float64]
MANY = 24  # boxes
DASHES: Mapping[str, list[float]] = {"solid": [], "dash": [5, 3], "dot": [1.5, 3]}


def _x(name: str = "x") -> Any:
    return alt.X(f"{name}:Q", scale=None, axis=None)


def _y(name: str = "y") -> Any:
    return alt.Y(f"{name}:Q", scale=None, axis=None)


def _data(rows: list[dict[str, Any]]) -> Any:
    return alt.Data(values=rows)  # type: ignore[no-untyped-call]


def _round(value: float) -> float:
    return round(float(value), 1)


@dataclass
class Canvas:
    """A plot under construction: domain of both axes and the layers so far."""

    size: Size
    x_domain: tuple[float, float]
    y_domain: tuple[float, float]
    top: float = 12.0
    bottom: float = 26.0
    layers: list[Any] = field(default_factory=list)

    def px(self, x: Any) -> Any:
        """Plot units of x."""
        low, high = self.x_domain
        return (np.asarray(x, dtype=np.float64) - low) / ((high - low) or 1.0) * self.size.plot

    def py(self, y: Any) -> Any:
        """Plot units of y, downwards."""
        low, high = self.y_domain
        return (high - np.asarray(y, dtype=np.float64)) / ((high - low) or 1.0) * self.size.height

    def rects(self, boxes: Sequence[tuple[float, float, float, float]], fill: str, opacity: float = 1.0) -> None:
        """Filled boxes (x0, y0, x1, y1) in plot units; many of them are drawn as one mark, which is far quicker."""
        if len(boxes) > MANY:
            d = "".join(f"M{_round(a)},{_round(b)}H{_round(c)}V{_round(e)}H{_round(a)}Z" for a, b, c, e in boxes)
            # A mark's own path is scaled by half the root of its size: 4 keeps it as it is.
            one = alt.Chart(_data([{"x": 0, "y": 0}])).mark_point(
                shape=d, filled=True, fill=fill, stroke=None, size=4, opacity=opacity
            )
            self.layers.append(one.encode(_x(), _y()))
            return
        rows = [dict(zip(("x", "y", "x2", "y2"), map(_round, box), strict=True)) for box in boxes]
        if rows:
            mark = alt.Chart(_data(rows)).mark_rect(fill=fill, fillOpacity=opacity, stroke=None)
            self.layers.append(mark.encode(_x(), _y(), alt.X2("x2"), alt.Y2("y2")))

    def rules(
        self, ends: Sequence[tuple[float, float, float, float]], stroke: str, width: float = 1.0, style: str = "solid"
    ) -> None:
        """Straight lines (x0, y0, x1, y1) in plot units."""
        rows = [dict(zip(("x", "y", "x2", "y2"), map(_round, end), strict=True)) for end in ends]
        if rows:
            mark = alt.Chart(_data(rows)).mark_rule(
                stroke=stroke, strokeWidth=width, strokeDash=DASHES[style], strokeCap="butt"
            )
            self.layers.append(mark.encode(_x(), _y(), alt.X2("x2"), alt.Y2("y2")))

    def columns(self, runs: Sequence[tuple[float, float, float]], stroke: str, width: float) -> None:
        """Upright bars (x of the middle, y0, y1) of one width, all as one mark: half the bytes of boxes."""
        if runs:
            d = "".join(f"M{_round(x)},{_round(a)}V{_round(b)}" for x, a, b in runs)
            one = alt.Chart(_data([{"x": 0, "y": 0}])).mark_point(
                shape=d, filled=False, stroke=stroke, strokeWidth=round(width, 2), size=4, opacity=1
            )
            self.layers.append(one.encode(_x(), _y()))

    def curve(self, x: Floats, y: Floats, stroke: str, width: float = 1.6, style: str = "solid") -> None:
        """A line through (x, y) in plot units; NaN breaks it, a lone point stays a dot."""
        rows = [
            {"x": _round(a), "y": _round(b), "r": run} for a, b, run in zip(x, y, _runs(y), strict=True) if run >= 0
        ]
        if rows:
            mark = alt.Chart(_data(rows)).mark_line(
                stroke=stroke, strokeWidth=width, strokeDash=DASHES[style], strokeCap="round", strokeJoin="round"
            )
            self.layers.append(mark.encode(_x(), _y(), detail="r:N"))

    def band(self, x: Floats, low: Floats, high: Floats, fill: str, opacity: float = 0.18) -> None:
        """The area between two curves in plot units; NaN breaks it."""
        rows = [
            {"x": _round(a), "y": _round(b), "y2": _round(c), "r": run}
            for a, b, c, run in zip(x, low, high, _runs(np.asarray(low) + np.asarray(high)), strict=True)
            if run >= 0
        ]
        if rows:
            mark = alt.Chart(_data(rows)).mark_area(fill=fill, fillOpacity=opacity, line=False)
            self.layers.append(mark.encode(_x(), _y(), alt.Y2("y2"), detail="r:N"))

    def dots(
        self, x: Floats, y: Floats, fill: str, *, shape: str = "circle", area: float = 14, opacity: float = 0.75
    ) -> None:
        """Marks at (x, y) in plot units."""
        rows = [{"x": _round(a), "y": _round(b)} for a, b in zip(x, y, strict=True) if math.isfinite(a + b)]
        if rows:
            mark = alt.Chart(_data(rows)).mark_point(
                shape=shape, filled=True, fill=fill, stroke=None, size=area, opacity=opacity
            )
            self.layers.append(mark.encode(_x(), _y()))

    def ring(self, x: float, y: float, stroke: str) -> None:
        """A ring around one point."""
        data = _data([{"x": _round(x), "y": _round(y)}])
        mark = alt.Chart(data).mark_point(
            shape="circle", filled=False, fill=theme.PAPER, stroke=stroke, strokeWidth=1.6, size=42, opacity=1
        )
        self.layers.append(mark.encode(_x(), _y()))

    def words(
        self,
        spots: Sequence[tuple[float, float, str | list[str]]],
        color: str = theme.INK2,
        *,
        align: Any = "left",
        baseline: Any = "middle",
        bold: bool = False,
        size: float = theme.SMALL,
    ) -> None:
        """Words at (x, y) in plot units; a list is one line each."""
        rows = [{"x": _round(x), "y": _round(y), "t": text} for x, y, text in spots]
        if rows:
            mark = alt.Chart(_data(rows)).mark_text(
                align=align,
                baseline=baseline,
                fontSize=size,
                fontWeight="bold" if bold else "normal",
                fill=color,
                lineHeight=theme.LINE_HEIGHT,
                lineBreak="\n",
            )
            self.layers.append(mark.encode(_x(), _y(), text="t:N"))

    def chart(self, **extra: Any) -> Any:
        """The finished altair chart; `extra` travels in its usermeta to the page (change list, slider)."""
        size = self.size
        margin = {"left": size.left, "right": size.right, "top": self.top, "bottom": self.bottom}
        return (
            alt.layer(*self.layers)
            .properties(width=size.plot, height=size.height, padding=margin, autosize="none", usermeta=extra)
            .configure_view(stroke=None, fill=None)
            .configure(background="transparent", font="sans-serif")
        )


def _runs(values: Any) -> list[int]:
    """Number of the unbroken run each value belongs to, −1 at NaN."""
    out, run, open_ = [], -1, False
    for value in np.asarray(values, dtype=np.float64):
        good = bool(np.isfinite(value))
        run += good and not open_
        out.append(run if good else -1)
        open_ = good
    return out
