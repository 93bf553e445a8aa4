"""An estimate drawn as its doubt: bars nested from pale (95 %) to dark (50 %), and a tick where it most likely lies."""

from __future__ import annotations

from dataclasses import dataclass

from reportgen.drawing import ink
from reportgen.drawing.axis import Scale
from reportgen.drawing.pen import Pen
from reportgen.drawing.trace import polygon

LEVELS = (0.95, 0.80, 0.50)
SHADES = (0.22, 0.34, 0.75)
ONE_SHADE = 0.36
ARROW = 6.0


@dataclass(frozen=True, slots=True)
class Band:
    """From low to high, and how dark."""

    low: float
    high: float
    shade: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Doubt:
    """An estimate with its bands, the widest first."""

    estimate: float
    bands: tuple[Band, ...]

    @property
    def low(self) -> float:
        """The widest band's lower end."""
        return self.bands[0].low

    @property
    def high(self) -> float:
        """The widest band's upper end."""
        return self.bands[0].high

    def scaled(self, factor: float) -> Doubt:
        """The same in another unit; a negative factor turns it around."""
        ends = [sorted((b.low * factor, b.high * factor)) for b in self.bands]
        bands = tuple(Band(low, high, b.shade) for (low, high), b in zip(ends, self.bands, strict=True))
        return Doubt(estimate=self.estimate * factor, bands=bands)


def by_t(estimate: float, se: float, dof: float) -> Doubt:
    """Bands of 95, 80 and 50 % from the estimator's own standard error and degrees of freedom (Student's t)."""
    from scipy.special import stdtrit  # imported late: it costs a tenth of a second

    halves = [float(stdtrit(dof, (1 + level) / 2)) * se for level in LEVELS]
    bands = tuple(Band(estimate - half, estimate + half, shade) for half, shade in zip(halves, SHADES, strict=True))
    return Doubt(estimate=estimate, bands=bands)


def one_band(estimate: float, low: float, high: float) -> Doubt:
    """Where only two ends are known: one band, no darker middle made up."""
    return Doubt(estimate=estimate, bands=(Band(low, high, ONE_SHADE),))


def draw(pen: Pen, doubt: Doubt, x: Scale, y: float, height: float, token: ink.Token) -> None:
    """The bars at that height; an arrow where they reach beyond the axis."""
    color, half = ink.line(token), height / 2
    for band in doubt.bands:
        pen.boxes([(x.held(band.low), y - half, x.held(band.high), y + half)], color, band.shade)
    if x.low <= doubt.estimate <= x.high:
        at = x(doubt.estimate)
        pen.line([(at, y - half - 2), (at, y + half + 2)], color, 2.4)
    for beyond, end, way in ((doubt.low < x.low, x.start, -1), (doubt.high > x.high, x.end, 1)):
        if beyond:
            points = [(end + way * ARROW, y), (end, y - half * 0.8), (end, y + half * 0.8)]
            pen.path(polygon(points), fill=color)
