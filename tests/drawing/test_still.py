"""A drawing as a file of its own."""

from __future__ import annotations

import re

import pytest
from drawing import made_views as made
from drawing.measured import overlapping

from reportgen.drawing.season_wide import CHAT, season_wide
from reportgen.drawing.still import still

NAMES = ["paper", "ink", "ink2", "rule", "rule2", "lift", "dusk", "edge"] + [
    name + end for name in ("cold", "target", "warm", "humid", "soil", "sun", "money", "neutral") for end in ("", "-t")
]


def test_no_custom_property_is_left() -> None:
    """Every colour is written out, words keep one font."""
    svg = still(season_wide(made.season(), CHAT), dict.fromkeys(NAMES, "#123456"), "DejaVu Sans")
    assert "var(" not in svg and svg.startswith('<svg xmlns="http://www.w3.org/2000/svg" font-family="DejaVu Sans"')
    assert set(re.findall(r'fill="(#[^"]+)"', svg)) == {"#123456"}


def test_a_colour_that_is_not_told_is_an_error() -> None:
    """Better no picture than a black one."""
    with pytest.raises(KeyError):
        still(season_wide(made.season()), {"ink": "#000000"}, "DejaVu Sans")


@pytest.mark.parametrize("days", [10, 184, 240])
def test_the_large_letters_of_a_chat_picture_stand_apart(days: int) -> None:
    """27 px at 988, marks without names."""
    assert overlapping(season_wide(made.season(days), CHAT)) == []
