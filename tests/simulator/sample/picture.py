"""A plan of the invented house, drawn for its story."""

from __future__ import annotations

GREEN, WOOD, INK, WATER = "#7fa37a", "#c9b38f", "#333333", "#7f9fb5"


def plan() -> str:
    """The plan as SVG: three beds, the path, the heater and where the loggers hang."""
    parts = [
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 640 380" font-family="sans-serif" font-size="15">',
        "<title>Plan of the Owlbarrow glasshouse, an invented house</title>",
        f'<rect x="20" y="20" width="600" height="300" fill="#f6f4ee" stroke="{INK}" stroke-width="4"/>',
        _bed(40, 40, 420, 90, "north bed, 2.6 m²"),
        _bed(40, 210, 420, 90, "south bed, 3.6 m²"),
        _bed(500, 40, 100, 110, "door bed, 1.6 m²"),
        f'<rect x="40" y="138" width="560" height="64" fill="{WOOD}"/>',
        f'<rect x="612" y="215" width="16" height="76" fill="{WOOD}" stroke="{INK}"/>',
        _spot(560, 246, WATER, "heater", -60),
        _spot(250, 170, INK, "bench logger", 14),
        _spot(575, 128, INK, "", 0),
        f'<text x="505" y="176" fill="{INK}">door logger</text>',
        f'<text x="20" y="352" fill="{INK}">From above: 14 m² inside, the door to the east.</text>',
        "</svg>",
    ]
    return "\n".join(parts) + "\n"


def _bed(x: int, y: int, width: int, height: int, words: str) -> str:
    first, *rest = words.split(", ")
    box = f'<rect x="{x}" y="{y}" width="{width}" height="{height}" rx="6" fill="{GREEN}"/>'
    lines = [first, *rest] if width < 200 else [words]
    return box + "".join(
        f'<text x="{x + 12}" y="{y + 26 + 20 * i}" fill="{INK}">{line}</text>' for i, line in enumerate(lines)
    )


def _spot(x: int, y: int, colour: str, words: str, dx: int) -> str:
    dot = f'<circle cx="{x}" cy="{y}" r="8" fill="{colour}"/>'
    return dot + (f'<text x="{x + dx}" y="{y + 5}" fill="{INK}">{words}</text>' if words else "")
