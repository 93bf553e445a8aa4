"""What a review says agrees with itself: over the sample, winters of known truth and odd seasons, each rule shown to
be able to fail."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pytest
from counsel.coherence import RULES, incoherent
from counsel.grounded import grounds, lever
from kept_reviews import WINTERS, review_of
from odd_seasons import ODD
from said_seasons import SAID

from reportgen.counsel.cautions import FUEL, ROOF
from reportgen.counsel.grounds import Told
from reportgen.counsel.types import Finding

SEASONS = ODD | SAID


@pytest.mark.parametrize("name", ["sample", "sample in °F", *WINTERS])
def test_a_known_winter_agrees_with_itself(name: str) -> None:
    """No rule finds a fault."""
    assert incoherent(review_of(name)) == {}


@pytest.mark.parametrize("name", sorted(SEASONS))
def test_an_odd_season_agrees_with_itself(name: str) -> None:
    """No heater, no diary, ten days, eight months, °F, south of the line."""
    assert incoherent(review_of(name)) == {}


SOUND = Finding(
    slug="worth-keeping-3",
    page="changes",
    about="Film",
    claim="“Film”: keep.",
    evidence="On 3\u00a0nights.",
    how_sure="Sure: counted.",
    next_step="Keep the film.",
    figure="3",
    figure_note="nights",
    anchor="changes_effects",
    stake="good news",
)
BALANCE = replace(
    SOUND,
    slug="the-balance",
    page="harvest",
    about=None,
    rank=1,
    claim="In all this winter cost EUR\u00a0416.29.",
    evidence="EUR\u00a0275.57 for heat and EUR\u00a0140.72 by costs.csv.",
    stake="money",
)
COLD = replace(
    SOUND,
    slug="coldest-moment",
    page="frost",
    about="bench",
    rank=2,
    claim="The coldest moment was 1.0\u00a0°C on 3\u00a0March, 1.0\u00a0K above your frost line of 0.0\u00a0°C.",
    next_step="Draw fleece over the crop first.",
)


def review(*findings: Finding, margin_k: float = 1.0, told: tuple[Told, ...] = ()) -> Any:
    """A review put together by hand."""
    counsel = SimpleNamespace(grounds=grounds(lever("Film", "keep")), plan=(), answers=(), told=told)
    frost = SimpleNamespace(minimum=SimpleNamespace(margin_k=margin_k))
    return SimpleNamespace(findings=findings or (SOUND, BALANCE, COLD), counsel=counsel, frost=frost)


def spoiled(n: int, **more: Any) -> Any:
    """The sound review with one of its findings altered."""
    found = [SOUND, BALANCE, COLD]
    found[n] = replace(found[n], **more)
    return review(*found)


MENTIONED = Told(subject="lever", clause="Tape", words="Tape: keep.", sure="", page="changes", lever="Tape")
SAYS = Told(subject="weeks", clause="Heat", words="EUR\u00a0400 in all.", sure="", page="heat")
BAD: dict[str, tuple[Any, ...]] = {
    "one_verdict": (
        spoiled(0, claim="“Film”: leave undone."),
        spoiled(0, slug="better-left-undone-3"),
        review(SOUND, replace(SOUND, rank=1, claim="“Film”: keep. Again.")),
    ),
    "printed_sums": (spoiled(1, evidence="EUR\u00a0275.57 for heat and EUR\u00a0140.00 by costs.csv."),),
    "one_value": (
        review(SOUND, BALANCE, COLD, told=(SAYS,)),
        spoiled(0, evidence="The coldest moment was 3.0\u00a0°C there."),
    ),
    "no_sentence_twice": (
        review(SOUND,
               replace(SOUND, rank=1, slug="not-worth-it-4", about=None, next_step="Keep it up all winter long."),
               replace(SOUND, rank=2, slug="not-worth-it-5", about=None, evidence="Keep it up all winter long.")),
        review(replace(SOUND, how_sure="Sure: it was counted twice."),
               replace(SOUND, rank=1, slug="cannot-tell", about=None, how_sure="Sure: it was counted twice.")),
    ),
    "sure_as_defined": (
        spoiled(0, how_sure="Nine in ten: it felt so."),
        spoiled(0, how_sure="Fairly sure."),
        spoiled(0, how_sure="Sure: on simulated houses it held."),
    ),
    "far_from_the_line": (review(SOUND, BALANCE, COLD, margin_k=12.3),),
    "something_to_do": (
        spoiled(2, next_step="Look at that night in the tables."),
        spoiled(2, next_step="Read the column at equal weather."),
    ),
    "stands_alone": (
        spoiled(2, next_step="Draw fleece over it first."),
        spoiled(2, next_step="Mark that week for next year: vents open by day."),
        spoiled(2, next_step="Draw fleece over the kale at dusk on nights like that."),
    ),
    "own_caution": (
        spoiled(0, claim="“Film”: keep.", next_step="Sow on time.", caution=ROOF),
        review(*(replace(SOUND, rank=n, slug=f"worth-keeping-{n}", about=None, caution=FUEL,
                         claim=f"Heat {n}.") for n in range(4))),
    ),
    "english": (spoiled(0, evidence="On 1\u00a0nights."), spoiled(0, evidence="For 0.0\u00a0days.")),
    "in_order": (
        spoiled(1, rank=7),
        spoiled(1, stake="safety"),
        spoiled(2, page="damp"),
    ),
    "told_first_is_told": (review(SOUND, BALANCE, COLD, told=(MENTIONED,)),),
}  # fmt: skip


def test_a_sound_review_has_no_fault() -> None:
    """The hand-made review from which the bad ones are made."""
    assert incoherent(review()) == {}


def test_every_rule_has_a_review_that_breaks_it() -> None:
    """A rule that nothing can break proves nothing."""
    assert set(BAD) == {rule.__name__ for rule in RULES}


@pytest.mark.parametrize(("rule", "n"), [(rule, n) for rule, bad in BAD.items() for n in range(len(bad))])
def test_a_rule_sees_what_is_incoherent(rule: str, n: int) -> None:
    """Each incoherent review is caught by its rule."""
    assert rule in incoherent(BAD[rule][n])
