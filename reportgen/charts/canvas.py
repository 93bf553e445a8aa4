"""One drawing at one width: primitives in plot units that end up as layers of an altair chart.

Every position is worked out here, in units from the plot's upper left corner, and handed to altair with identity
scales. So words can be kept apart before anything is drawn, and no chart depends on the machine's zone or fonts.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Any

import altair as alt
import numpy as np
from altair.utils.schemapi import debug_mode
from numpy.typing import NDArray

from reportgen.charts import theme
from reportgen.charts.theme import Size

Floats = NDArray[np.float64]
Look = dict[str, Any]  # of a mark, in the words of altair
MANY = 24  # boxes
DASHES: Mapping[str, list[float]] = {"solid": [], "dash": [5, 3], "dot": [1.5, 3]}


def _x(name: str = "x") -> Any:
    return alt.X(f"{name}:Q", scale=None, axis=None)


def _y(name: str = "y") -> Any:
    return alt.Y(f"{name}:Q", scale=None, axis=None)


def _round(value: float) -> float:
    return round(float(value), 1)


CHANNELS: Mapping[str, Any] = {"x2": lambda: alt.X2("x2"), "y2": lambda: alt.Y2("y2"), "text": lambda: alt.Text("t:N")}


@dataclass(frozen=True, slots=True)
class Layer:
    """One mark over the rows of that name, not yet an altair object: what no page shows is never built."""

    name: str
    mark: str
    channels: tuple[str, ...]  # beside x and y
    detail: str
    look: Look

    def to_dict(self) -> dict[str, Any]:
        """Its specification, by altair; the encoding, which is that of all layers of its kind, is asked for once."""
        mark = alt.MarkDef(**{"type": self.mark, **self.look}).to_dict(validate=False)
        return {"data": {"name": self.name}, "mark": mark, "encoding": _encoding(self.mark, self.channels, self.detail)}


@lru_cache(maxsize=64)
def _encoding(mark: str, channels: tuple[str, ...], detail: str) -> dict[str, Any]:
    """How the rows of such layers are placed: in plot units, as they stand. Nobody may write to it."""
    base = getattr(alt.Chart(alt.NamedData(name="rows")), f"mark_{mark}")()
    more = {"detail": alt.Detail(f"{detail}:N")} if detail else {}
    whole = base.encode(_x(), _y(), *(CHANNELS[name]() for name in channels), **more).to_dict(validate=False)
    return dict(whole["encoding"])


@dataclass(frozen=True, slots=True)
class Drawn:
    """A finished chart: its layers and, apart from them, their rows, which altair would check and copy one by one."""

    layers: tuple[Layer, ...]
    frame: Mapping[str, Any]
    rows: Mapping[str, list[dict[str, Any]]]

    def to_dict(self) -> dict[str, Any]:
        """The Vega-Lite specification, unchecked: that it draws is what the tests hold."""
        with debug_mode(False):
            layers = [layer.to_dict() for layer in self.layers]
        return {"$schema": alt.SCHEMA_URL, "layer": layers, **self.frame, "datasets": dict(self.rows)}


@dataclass
class Canvas:
    """A plot under construction: domain of both axes, the layers so far and the rows that they draw."""

    size: Size
    x_domain: tuple[float, float]
    y_domain: tuple[float, float]
    top: float = 12.0
    bottom: float = 26.0
    layers: list[Layer] = field(default_factory=list)
    rows: dict[str, list[dict[str, Any]]] = field(default_factory=dict)
    inked: list[tuple[Floats, Floats]] = field(default_factory=list)  # curves and clouds that labels keep clear of

    def _add(self, rows: list[dict[str, Any]], mark: str, *channels: str, detail: str = "", **look: Any) -> None:
        """One layer over its rows."""
        if not rows:
            return
        name = f"d{len(self.rows)}"
        self.rows[name] = rows
        self.layers.append(Layer(name, mark, channels, detail, look))

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
            look: Look = {"shape": d, "filled": True, "fill": fill, "stroke": None, "size": 4, "opacity": opacity}
            self._add([{"x": 0, "y": 0}], "point", **look)
            return
        rows = [dict(zip(("x", "y", "x2", "y2"), map(_round, box), strict=True)) for box in boxes]
        self._add(rows, "rect", "x2", "y2", fill=fill, fillOpacity=opacity, stroke=None)

    def rules(
        self, ends: Sequence[tuple[float, float, float, float]], stroke: str, width: float = 1.0, style: str = "solid"
    ) -> None:
        """Straight lines (x0, y0, x1, y1) in plot units."""
        rows = [dict(zip(("x", "y", "x2", "y2"), map(_round, end), strict=True)) for end in ends]
        look: Look = {"stroke": stroke, "strokeWidth": width, "strokeDash": DASHES[style], "strokeCap": "butt"}
        self._add(rows, "rule", "x2", "y2", **look)

    def columns(self, runs: Sequence[tuple[float, float, float]], stroke: str, width: float) -> None:
        """Upright bars (x of the middle, y0, y1) of one width, all as one mark: half the bytes of boxes."""
        if runs:
            d = "".join(f"M{_round(x)},{_round(a)}V{_round(b)}" for x, a, b in runs)
            look: Look = {"shape": d, "filled": False, "stroke": stroke, "strokeWidth": round(width, 2)}
            self._add([{"x": 0, "y": 0}], "point", **look, size=4, opacity=1)

    def curve(self, x: Floats, y: Floats, stroke: str, width: float = 1.6, style: str = "solid") -> None:
        """A line through (x, y) in plot units; NaN breaks it, a lone point stays a dot."""
        rows = [
            {"x": _round(a), "y": _round(b), "r": run} for a, b, run in zip(x, y, _runs(y), strict=True) if run >= 0
        ]
        self.inked.append(_filled(np.asarray(x, dtype=np.float64), np.asarray(y, dtype=np.float64)))
        look: Look = {"stroke": stroke, "strokeWidth": width, "strokeDash": DASHES[style]}
        self._add(rows, "line", detail="r", **look, strokeCap="round", strokeJoin="round")

    def band(self, x: Floats, low: Floats, high: Floats, fill: str, opacity: float = 0.18) -> None:
        """The area between two curves in plot units; NaN breaks it."""
        rows = [
            {"x": _round(a), "y": _round(b), "y2": _round(c), "r": run}
            for a, b, c, run in zip(x, low, high, _runs(np.asarray(low) + np.asarray(high)), strict=True)
            if run >= 0
        ]
        self._add(rows, "area", "y2", detail="r", fill=fill, fillOpacity=opacity, line=False)

    def dots(
        self, x: Floats, y: Floats, fill: str, *, shape: str = "circle", area: float = 14, opacity: float = 0.75
    ) -> None:
        """Marks at (x, y) in plot units."""
        rows = [{"x": _round(a), "y": _round(b)} for a, b in zip(x, y, strict=True) if math.isfinite(a + b)]
        self.inked.append((np.asarray(x, dtype=np.float64), np.asarray(y, dtype=np.float64)))
        self._add(rows, "point", shape=shape, filled=True, fill=fill, stroke=None, size=area, opacity=opacity)

    def ring(self, x: float, y: float, stroke: str) -> None:
        """A ring around one point."""
        look: Look = {"shape": "circle", "filled": False, "fill": theme.PAPER, "stroke": stroke, "strokeWidth": 1.6}
        self._add([{"x": _round(x), "y": _round(y)}], "point", **look, size=42, opacity=1)

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
        look: Look = {
            "align": align,
            "baseline": baseline,
            "fontSize": size,
            "fontWeight": "bold" if bold else "normal",
        }
        look |= {"fill": color, "lineHeight": theme.LINE_HEIGHT, "lineBreak": "\n"}
        self._add(rows, "text", "text", **look)

    def chart(self, **extra: Any) -> Drawn:
        """The finished chart; `extra` travels in its usermeta to the page (change list, slider)."""
        size = self.size
        margin = {"left": size.left, "right": size.right, "top": self.top, "bottom": self.bottom}
        look = {"view": {"stroke": None, "fill": None}, "background": "transparent", "font": "sans-serif"}
        frame = {"width": size.plot, "height": size.height, "padding": margin, "autosize": "none"}
        return Drawn(tuple(self.layers), {**frame, "config": look, "usermeta": extra}, dict(self.rows))


def _filled(x: Floats, y: Floats, step: float = 4.0) -> tuple[Floats, Floats]:
    """A curve's points with points between them, no more than about `step` units apart; none across a gap."""
    if len(x) < 2:
        return x, y
    far = np.hypot(np.diff(x), np.diff(y))
    parts = np.where(np.isfinite(far), np.clip(np.ceil(far / step), 1, 400), 1).astype(int)
    share = np.concatenate([np.arange(n) / n for n in parts])
    start = np.repeat(np.arange(len(parts)), parts)
    return (
        np.append(x[start] + share * np.diff(x)[start], x[-1]),
        np.append(y[start] + share * np.diff(y)[start], y[-1]),
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
