"""How a page of a group opens: nothing that was drawn is dropped."""

from __future__ import annotations

import pandas as pd
import pytest

from reportgen.charts.types import Drawing, Note
from reportgen.gather.pages.opened import opened, unanswered

WHO = Note(text="Plot 3: no heat on record.", kind="missing", title="Who is not shown")


def drawing(n: int) -> Drawing:
    """A picture of no more than its name."""
    words = {"title": "", "subtitle": "", "label": "", "description": "", "wide": "", "narrow": ""}
    return Drawing(uid=f"p{n}", table=pd.DataFrame(), **words)


@pytest.mark.parametrize("count", [1, 2, 3, 4, 5, 8])
def test_every_picture_stands_once_and_an_odd_last_one_takes_the_column(count: int) -> None:
    """One on top, up to three under it and then who is not shown, the rest folded."""
    drawings = [drawing(n) for n in range(count)]
    page = opened("heat", "Heat", drawings, (WHO,))
    beside = [block for block in page.blocks if isinstance(block, Drawing)]
    assert [page.picture, *beside, *page.rest] == drawings
    assert len(beside) == min(count - 1, 3)
    assert page.blocks[-1] is WHO
    assert page.full == ({beside[-1].uid} if len(beside) in (1, 3) else set())


def test_a_page_without_an_answer_says_what_to_log() -> None:
    page = unanswered("frost", "No house logged the air", "Hang one logger.")
    assert (page.answers, page.picture, page.lead) == (False, None, "Hang one logger.")
