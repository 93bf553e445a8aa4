"""Any view at all: made by chance, drawn, and looked over for the same laws as those made by hand."""

from __future__ import annotations

from drawing import made_views as made
from drawing.measured import faults
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from reportgen.drawing.effects import effects_tall, effects_wide
from reportgen.drawing.notes import Inked, write
from reportgen.drawing.pen import Box, Pen
from reportgen.drawing.season_tall import season_tall
from reportgen.drawing.season_wide import HANDOUT, season_wide

NAMES = st.sampled_from(["mat", "Bubble film inside the roof", made.LONG, made.RIGHT_TO_LEFT, "x" * 80])


@given(
    days=st.integers(1, 240),
    low=st.floats(-40, 10),
    span=st.floats(0.5, 60),
    many=st.integers(0, 40),
    text=NAMES,
    flags=st.lists(st.booleans(), min_size=7, max_size=7),
    heat=st.lists(NAMES, max_size=4),
)
@settings(max_examples=12, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_any_season(
    days: int, low: float, span: float, many: int, text: str, flags: list[bool], heat: list[str]
) -> None:
    """Words apart and inside, whatever is there or missing."""
    crowd, with_nights, outdoors, picked, damp, dark, holes = flags
    view = made.season(
        days,
        low=low,
        high=low + span,
        many=many,
        text=text,
        crowd=crowd,
        with_nights=with_nights,
        outdoors=outdoors,
        picked=picked,
        damp=damp,
        dark=dark,
        holes=holes,
        heat=tuple(heat),
    )
    for svg in (season_wide(view), season_wide(view, HANDOUT), season_tall(view)):
        assert faults(svg) == []


@given(st.lists(st.one_of(st.none(), st.floats(-50, 50)), min_size=1, max_size=20), NAMES)
@settings(max_examples=12, deadline=None)
def test_any_effects(estimates: list[float | None], text: str) -> None:
    """However many rows, however long their names, however far their intervals."""
    view = made.effects(tuple(estimates), text)
    assert faults(effects_wide(view)) == []
    assert faults(effects_tall(view)) == []


@given(st.lists(st.tuples(st.floats(0, 400), st.floats(0, 200)), max_size=12), st.text("abc def", max_size=60))
@settings(max_examples=20, deadline=None)
def test_notes_are_dropped_rather_than_touching(spots: list[tuple[float, float]], words: str) -> None:
    """As many notes as there is room for; none touches another or leaves the area."""
    pen = Pen(width=400, size=14, uid="made")
    area, inked = Box(0, 0, 400, 200), Inked()
    written = sum(write(pen, spot, words or "a", "var(--ink)", inked, area) for spot in spots)
    assert written <= len(spots)
    for n, box in enumerate(pen.taken):
        assert box.inside(Box(-0.01, -0.01, 400.01, 200.01))
        assert not any(box.meets(other, -0.1) for other in pen.taken[:n] if (other.x0, other.y0) != (box.x0, box.y0))


def test_a_note_keeps_clear_of_what_is_drawn() -> None:
    """A line just right of the point: the words go elsewhere."""
    pen = Pen(width=400, size=14, uid="made")
    inked = Inked()
    inked.curve([(210.0, 0.0), (210.0, 200.0)])
    inked.box(212, 0, 400, 200)
    assert write(pen, (205.0, 100.0), "cold night", "var(--ink)", inked, Box(0, 0, 400, 200))
    assert all(box.x1 < 210 for box in pen.taken)


def test_no_room_no_note() -> None:
    """An area too small for the words stays empty."""
    pen = Pen(width=400, size=14, uid="made")
    assert not write(pen, (5.0, 5.0), "a note of some length", "var(--ink)", Inked(), Box(0, 0, 20, 10))
    assert pen.taken == []
