"""The handout as one picture for a group chat, and the same in plain text, from the same source as the printed page."""

from __future__ import annotations

import re
from xml.sax.saxutils import escape

from reportgen.charts import theme
from reportgen.charts.handout import Handout, Shown
from reportgen.charts.place import wrap
from reportgen.site.views import ChartView

WIDTH, MARGIN = 1080, 60
CHART = 560  # width of a chart in the picture
VARIABLE = re.compile(r"var\(--([a-z0-9-]+)\)")
VIEW = re.compile(r'viewBox="0 0 ([\d.]+) ([\d.]+)"')


def text(handout: Handout) -> str:
    """The picture in words."""
    lines = [handout.title, handout.lead, ""]
    for n, one in enumerate(handout.shown, start=1):
        lines += [
            f"{n}. {one.claim}",
            f"   {one.evidence}",
            f"   Chart: {one.drawing.title}. {one.drawing.description}",
            "",
        ]
    lines += [*handout.more, "", handout.closing, ""]
    return "\n".join(lines)


def png(handout: Handout, charts: tuple[ChartView, ...]) -> bytes:
    """The picture, 1080 pixels wide."""
    import vl_convert

    data: bytes = vl_convert.svg_to_png(svg(handout, charts), scale=1)
    return data


def svg(handout: Handout, charts: tuple[ChartView, ...]) -> str:
    """The picture as SVG, in light colours."""
    parts: list[str] = []
    y = float(MARGIN)
    y = _words(parts, handout.title, MARGIN, y, size=40, bold=True, wide=WIDTH - 2 * MARGIN)
    y = _words(parts, handout.lead, MARGIN, y + 6, size=24, color="ink2", wide=WIDTH - 2 * MARGIN) + 16
    for one, chart in zip(handout.shown, charts, strict=True):
        y = _row(parts, one, chart, y)
    for line in handout.more:
        y = _words(parts, line, MARGIN, y + 10, size=24, bold=True, wide=WIDTH - 2 * MARGIN)
    y = _words(parts, handout.closing, MARGIN, y + 20, size=22, color="ink2", wide=WIDTH - 2 * MARGIN) + MARGIN - 20
    inside = VARIABLE.sub(lambda found: _light(found[1]), "".join(parts))
    paper = _light("paper")
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH}" height="{y:.0f}" viewBox="0 0 {WIDTH} {y:.0f}"'
        f' font-family="DejaVu Sans, Liberation Sans, Arial, sans-serif">'
        f'<rect width="100%" height="100%" fill="{paper}"/>{inside}</svg>'
    )


def _row(parts: list[str], one: Shown, chart: ChartView, y: float) -> float:
    parts.append(f'<path d="M{MARGIN} {y}H{WIDTH - MARGIN}" stroke="var(--rule2)" stroke-width="1.5"/>')
    wide = WIDTH - 2 * MARGIN - CHART - 30
    below = _words(parts, one.claim, MARGIN, y + 18, size=26, bold=True, wide=wide)
    below = _words(parts, one.evidence, MARGIN, below + 8, size=20, color="ink2", wide=wide)
    found = VIEW.search(str(chart.narrow))
    width, height = (float(found[1]), float(found[2])) if found else (1.0, 0.0)
    tall = CHART * height / width
    inner = re.sub(r"^<svg[^>]*>|</svg>$", "", str(chart.narrow))
    parts.append(
        f'<svg x="{WIDTH - MARGIN - CHART}" y="{y + 14}" width="{CHART}" height="{tall:.0f}"'
        f' viewBox="0 0 {width:g} {height:g}" font-size="11" fill="none">{_filled(inner)}</svg>'
    )
    return max(below, y + 14 + tall) + 22


def _filled(inner: str) -> str:
    """On a page the style sheet says that shapes are bare and words are not; here the marks must say it themselves."""
    filled = re.sub(r"<text(?![^>]* fill=)", '<text fill="var(--ink2)"', inner)
    halo = '<text stroke="var(--paper)" stroke-width="4" stroke-linejoin="round" paint-order="stroke"'
    return filled.replace("<text", halo)


def _words(
    parts: list[str],
    words: str,
    x: float,
    y: float,
    *,
    size: float,
    wide: float,
    bold: bool = False,
    color: str = "ink",
) -> float:
    """Words in lines; gives the place below them."""
    most = max(8, int(wide / (size * (theme.EM_BOLD if bold else theme.EM_SHARE))))
    weight = ' font-weight="bold"' if bold else ""
    for line in wrap(words, most, 12):
        y += size * 1.28
        parts.append(
            f'<text x="{x:g}" y="{y:.1f}" font-size="{size:g}"{weight} fill="var(--{color})">{escape(line)}</text>'
        )
    return y


def _light(name: str) -> str:
    """The light value of a custom property."""
    if name in theme.PAGE:
        return theme.PAGE[name][0]
    if name.startswith("r") and name[1:].isdigit():
        return theme.RAMP[int(name[1:])][0]
    base, _, words = name.partition("-")
    return theme.PALETTE[base][1 if words else 0]
