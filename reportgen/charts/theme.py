"""The look of every chart: palette tokens, the two widths, sizes of type.

Colours are written as CSS custom properties, `var(--cold)`, straight into the SVG; dark, print and forced colours are
then a matter of the style sheet alone (site/resources.py writes the values below into it).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

WIDE = 760  # units of the drawing for 47rem and more, where it fills a column of 1 040 px: 11 units are 15 px
NARROW = 320  # … for a phone, where it fills the screen
SMALL = 11
LINE_HEIGHT = 14
# Widths in ems, measured on DejaVu Sans 2.37, the widest of the usual fallback fonts, and rounded up: so words that are
# kept apart here stay apart in any font a reader may have. The labels of the sample's pages (5 characters and more)
# reach 0.65 em a character in regular type and 0.72 in bold, 0.55 and 0.62 on the mean.
EM_SHARE = 0.62
EM_BOLD = 0.67
BOLDER = 1.16  # bold over regular, of whole labels
EMS: Mapping[float, str] = MappingProxyType(
    {
        0.35: "ijlIJ',./:;\\| ·’\u00a0\u202f",
        0.45: "ft()-[]r!²³",
        0.65: '*_`–°csz?“”kvxyFL0123456789abdeghnopquEPSTY${}"äöüáéíóúàèçñß',
        0.80: "ABCKRVXZNUDGHOQ&ÄÖÜ",
        0.90: "w#+<=>^~−±×M",
    }
)
_EM = {character: width for width, characters in EMS.items() for character in characters}

# token → (light line, light text, dark line, dark text); own palette, settled by search, see DEVELOPERS.md
PALETTE: Mapping[str, tuple[str, str, str, str]] = MappingProxyType(
    {
        "cold": ("#1c4793", "#1c4793", "#6eaffd", "#6eaffd"),
        "target": ("#2b9e6f", "#00764c", "#48926a", "#62b287"),
        "warm": ("#911d00", "#911d00", "#df500f", "#f07a45"),
        "humid": ("#19707d", "#19707d", "#68ddf5", "#68ddf5"),
        "soil": ("#8c633a", "#82582f", "#f1c597", "#f1c597"),
        "sun": ("#af7f00", "#8f6200", "#dca31b", "#dca31b"),
        "money": ("#ce62b7", "#ab4295", "#b562c1", "#cf86da"),
        "neutral": ("#464c4a", "#464c4a", "#9da8a7", "#9da8a7"),
    }
)
# name → (light, dark)
PAGE: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "paper": ("#f7f9f8", "#101614"),
        "ink": ("#17211d", "#e7ede9"),
        "ink2": ("#4b5752", "#a9b5af"),
        "rule": ("#dfe5e2", "#26302c"),
        "rule2": ("#8f9b95", "#6a7871"),
        "lift": ("#f3e2c8", "#3a2d1c"),
        "dusk": ("#e9edf0", "#1b2426"),
    }
)
# Seven classes from cold to warm: (light, dark)
RAMP: tuple[tuple[str, str], ...] = (
    ("#1c4793", "#8fc4ff"),
    ("#6f94cf", "#4b83c9"),
    ("#a6c1e6", "#26466f"),
    ("#d8ead0", "#22382d"),
    ("#f0bd82", "#6d4320"),
    ("#d9713a", "#c25a1a"),
    ("#911d00", "#ffb08a"),
)

INK, INK2, PAPER, RULE, RULE2 = (f"var(--{name})" for name in ("ink", "ink2", "paper", "rule", "rule2"))


def line(token: str) -> str:
    """Colour of a line or mark of that token."""
    return f"var(--{token})"


def text(token: str) -> str:
    """Colour of words of that token (darker where the line colour is too pale to read)."""
    return f"var(--{token}-t)" if token in PALETTE else f"var(--{token})"


def ramp(step: int) -> str:
    """Colour of class 0 (coldest) to 6 (warmest)."""
    return f"var(--r{step})"


def width_of(words: str, size: float = SMALL, *, bold: bool = False) -> float:
    """Units that words take at most, in the widest fallback font; a character not listed counts as one em."""
    return sum(_EM.get(character, 1.0) for character in words) * size * (BOLDER if bold else 1.0)


@dataclass(frozen=True, kw_only=True, slots=True)
class Size:
    """One of the two widths: the plot lies between `left` and `total − right`, the same on every chart."""

    total: int
    left: int
    right: int
    height: int
    narrow: bool

    @property
    def plot(self) -> int:
        """Width of the plot."""
        return self.total - self.left - self.right


def sizes(height: int | None = None) -> tuple[Size, Size]:
    """Wide and narrow."""
    tall = height or 240
    return (
        Size(total=WIDE, left=54, right=136, height=tall, narrow=False),
        Size(
            total=NARROW, left=42, right=80, height=min(tall, 220) if height is None else round(tall * 0.9), narrow=True
        ),
    )
