"""The palette by published formulas: contrast of the pairs in use, and how near its colours come for colour-blind eyes.

Contrast: WCAG 2.2, relative luminance and contrast ratio; line marks need 3:1 (success criterion 1.4.11), words 4.5:1
(1.4.3). Colour blindness: G. M. Machado, M. M. Oliveira, L. A. F. Fernandes, A physiologically-based model for
simulation of color vision deficiency, IEEE TVCG 15 (2009) 1291–1298, matrices of severity 1.0, applied to linear RGB.
Distance: CIE 1976 L*a*b*, D65 (CIE 15:2004); about 2.3 is the smallest that is noticed (M. Mahy and others, Color
Research and Application 19 (1994)). The limit of 12 is our own choice,
five times that.
"""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from numpy.typing import NDArray

from reportgen.charts import theme

MODES = {"light": 0, "dark": 1}
MACHADO = {
    "usual": np.eye(3),
    "protanopia": np.array(
        [[0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216], [-0.003882, -0.048116, 1.051998]]
    ),
    "deuteranopia": np.array(
        [[0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413], [-0.011820, 0.042940, 0.968881]]
    ),
    "tritanopia": np.array(
        [[1.255528, -0.076749, -0.178779], [-0.078411, 0.930809, 0.147602], [0.004733, 0.691367, 0.303900]]
    ),
}
# Tokens drawn side by side in one chart, without dashes or marks of another shape to tell them apart.
SHARED = (
    ("cold", "neutral"),
    ("cold", "warm"),
    ("cold", "humid"),
    ("warm", "soil"),
    ("soil", "neutral"),
    ("soil", "sun"),
    ("warm", "neutral"),
    ("target", "neutral"),
    ("target", "money"),
    ("sun", "neutral"),
    ("sun", "cold"),
    ("sun", "warm"),
    ("cold", "soil"),
    ("cold", "target"),
    ("humid", "warm"),
    ("humid", "neutral"),
)


def linear(color: str) -> NDArray[np.float64]:
    """sRGB hex to linear RGB (IEC 61966-2-1; WCAG has the same with 0.04045 rounded to 0.03928)."""
    c = np.array([int(color[n : n + 2], 16) / 255 for n in (1, 3, 5)])
    return np.where(c <= 0.04045, c / 12.92, ((c + 0.055) / 1.055) ** 2.4)


def luminance(color: str) -> float:
    """WCAG relative luminance."""
    return float(linear(color) @ np.array([0.2126, 0.7152, 0.0722]))


def contrast(one: str, other: str) -> float:
    """WCAG contrast ratio, 1 to 21."""
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def lab(rgb: NDArray[np.float64]) -> NDArray[np.float64]:
    """Linear RGB to L*a*b*."""
    to_xyz = np.array([[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]])
    x = to_xyz @ np.clip(rgb, 0, 1) / np.array([0.95047, 1.0, 1.08883])
    f = np.where(x > (6 / 29) ** 3, np.cbrt(x), x / (3 * (6 / 29) ** 2) + 4 / 29)
    return np.array([116 * f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])])


def distance(one: str, other: str, eyes: str) -> float:
    """How far apart two colours are for those eyes, CIE 1976."""
    a, b = (lab(MACHADO[eyes] @ linear(color)) for color in (one, other))
    return float(np.linalg.norm(a - b))


def test_the_formulas_give_published_values() -> None:
    """Black on white is 21:1 and #767676 on white 4.54:1 (WCAG understanding 1.4.3); white is L* 100."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0, abs=0.001)
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.005)
    assert lab(linear("#ffffff"))[0] == pytest.approx(100.0, abs=0.01)
    # sRGB red in L*a*b* is 53.2, 80.1, 67.2 (B. Lindbloom's tables, D65).
    assert lab(linear("#ff0000")) == pytest.approx([53.2, 80.1, 67.2], abs=0.1)
    # Each row of a simulation matrix sums to 1, so that grey stays grey (Machado 2009).
    for matrix in MACHADO.values():
        assert matrix.sum(axis=1) == pytest.approx([1.0, 1.0, 1.0], abs=1e-5)


@pytest.mark.parametrize("mode", MODES)
@pytest.mark.parametrize("token", theme.PALETTE)
def test_lines_and_words_stand_out_from_the_paper(token: str, mode: str) -> None:
    """Lines at least 3:1, words at least 4.5:1, on the page's paper; on white paper of a printer too."""
    n = MODES[mode]
    line, words = theme.PALETTE[token][2 * n : 2 * n + 2]
    papers = [theme.PAGE["paper"][n], *(["#ffffff"] if mode == "light" else [])]
    for paper in papers:
        assert contrast(line, paper) >= 3.0
        assert contrast(words, paper) >= 4.5


@pytest.mark.parametrize("mode", MODES)
def test_the_pages_own_words_and_rules(mode: str) -> None:
    """Ink and second ink are words; figures of the lighter rules carry no meaning alone."""
    n = MODES[mode]
    assert contrast(theme.PAGE["ink"][n], theme.PAGE["paper"][n]) >= 7.0
    assert contrast(theme.PAGE["ink2"][n], theme.PAGE["paper"][n]) >= 4.5


@pytest.mark.parametrize("eyes", MACHADO)
@pytest.mark.parametrize("mode", MODES)
def test_neighbouring_classes_of_the_ramp_stay_apart(mode: str, eyes: str) -> None:
    """The seven classes of a carpet: every neighbour is seen as another colour by all eyes."""
    colors = [pair[MODES[mode]] for pair in theme.RAMP]
    assert min(distance(a, b, eyes) for a, b in itertools.pairwise(colors)) >= 12.0


@pytest.mark.parametrize("mode", MODES)
def test_both_ends_of_the_ramp_stay_apart(mode: str) -> None:
    """Cold and warm ends are never taken for one another."""
    ends = theme.RAMP[0][MODES[mode]], theme.RAMP[-1][MODES[mode]]
    assert min(distance(*ends, eyes) for eyes in MACHADO) >= 30.0


@pytest.mark.parametrize("eyes", MACHADO)
@pytest.mark.parametrize("mode", MODES)
@pytest.mark.parametrize("pair", SHARED, ids="-".join)
def test_tokens_that_share_a_chart_stay_apart(pair: tuple[str, str], mode: str, eyes: str) -> None:
    """Lines of one chart differ for all eyes, besides their dashes and labels."""
    one, other = (theme.PALETTE[token][2 * MODES[mode]] for token in pair)
    assert distance(one, other, eyes) >= 12.0
