"""The season's ribbon at the head of each page: coldest of each night as two thin step lines, frost filled."""

from __future__ import annotations

from collections.abc import Sequence

from reportgen.drawing import ink

HIGH = 48  # whole units, so that the steps are short to write; style decides how high it is seen
Values = Sequence[float | None]


def ribbon(inside: Values, outdoors: Values, line: float) -> str:
    """An SVG that says nothing to a screen reader: its caption does. '' without a night."""
    known = [v for v in (*inside, *outdoors) if v is not None]
    if not known:
        return ""
    low, high = min(*known, line), max(*known, line)

    def y(value: float) -> int:
        return round((high - value) / ((high - low) or 1.0) * (HIGH - 4)) + 2

    zero = y(line)
    frost = "".join(f"M{n} {zero}v{y(v) - zero}h1V{zero}z" for n, v in enumerate(inside) if v is not None and v < line)
    days = max(len(inside), len(outdoors))
    thin = 'vector-effect="non-scaling-stroke"'
    return (
        f'<svg class="rib" viewBox="0 0 {days} {HIGH}" preserveAspectRatio="none" aria-hidden="true" fill="none">'
        + (f'<path d="{frost}" fill="{ink.line("cold")}" fill-opacity=".55"/>' if frost else "")
        + f'<path d="M0 {zero}h{days}" stroke="{ink.RULE2}" stroke-width=".6" {thin}/>'
        + _line(outdoors, y, ink.line("neutral"), ".8", thin)
        + _line(inside, y, ink.line("cold"), "1.4", thin)
        + "</svg>"
    )


def _line(values: Values, y: object, color: str, width: str, thin: str) -> str:
    d = steps([None if v is None else y(v) for v in values])  # type: ignore[operator]
    return f'<path d="{d}" stroke="{color}" stroke-width="{width}" {thin}/>' if d else ""


def steps(levels: Sequence[int | None]) -> str:
    """Path of a step line, a unit a day; level stretches are one step, None breaks it."""
    out: list[str] = []
    last: int | None = None
    run = 0
    for n, level in enumerate(levels):
        if level is not None and level == last:
            run += 1
            continue
        out += [f"h{run}"] if run else []
        run = 0
        if level is not None:
            out.append(f"M{n} {level}" if last is None else f"v{level - last}")
            run = 1
        last = level
    return "".join([*out, *([f"h{run}"] if run else [])])
