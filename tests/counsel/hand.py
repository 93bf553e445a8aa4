"""Results put together by hand: sections as in review.json, so that a rule can be shown the season it must fire on."""

from __future__ import annotations

import datetime as dt
from types import SimpleNamespace
from typing import TYPE_CHECKING, Any, cast

from made_season import readings, season

from reportgen.counsel import Counsel
from reportgen.counsel.facts import NO_GROUNDS
from reportgen.effects.types import Changes, Effect, Outcome
from reportgen.measures.harvest import harvest
from reportgen.season.models import Season
from reportgen.winters import Winters

if TYPE_CHECKING:
    from reportgen.counsel.results import Results

SECTIONS = ("record", "frost", "heat", "damp", "soil", "light")
# Nothing happened, nothing was judged, nothing is said: a real one, so that it has every field that a page may read.
NO_COUNSEL = Counsel(grounds=NO_GROUNDS, plan=(), answers=(), told=(), findings=())
NO_LAST = Winters(last=None, rows=(), reasons={})
# Every date's own hold moved: 100 kWh for 30 as it was; a kelvin is 20 kWh, a degree Fahrenheit 5/9 of it.
PRICE_OF_DEGREE = tuple(
    {"away_k": away, "kwh": kwh, "low": 0.9 * kwh, "high": 1.1 * kwh}
    | {"cost": 0.3 * kwh, "cost_low": 0.27 * kwh, "cost_high": 0.33 * kwh}
    for away, kwh in ((away, 100.0 + 20.0 * away) for away in (-2.0, -1.0, -5 / 9, 5 / 9, 1.0, 2.0))
)


def results(of: Season | None = None, **more: Any) -> Results:
    """Results of a season.

    Args:
        of: The season; the usual made-up one when left out.
        more: Sections as mappings (frost={...}), `winters`, `effects`; whatever else goes to `made_season.readings`.
    """
    of = of or season()
    sections = {name: more.pop(name, {}) for name in SECTIONS}
    effects, winters = more.pop("effects", Changes(changes=())), more.pop("winters", NO_LAST)
    read = readings(of, **more)
    made = SimpleNamespace(
        findings=(),
        counsel=NO_COUNSEL,
        season=of,
        readings=read,
        harvest=harvest(read),
        effects=effects,
        winters=winters,
        **sections,
    )
    return cast("Results", made)


def told_on(r: Any, *pages: str, on: Any = None) -> tuple[Any, ...]:
    """What the kinds of these pages say of results, in their order."""
    from reportgen.counsel.facts import Facts
    from reportgen.counsel.kinds import KINDS, made

    kinds = {slug: one for slug, one in KINDS.items() if one.page in pages}
    return made(Facts.of(r, NO_GROUNDS if on is None else on), kinds)


def outcome(name: str, effect: float, low: float, high: float, **more: Any) -> Outcome:
    """One outcome of a change over 21 days on either side."""
    usual = {"unit": "%" if "humid" in name else "K", "declared": False, "days_before": 21, "days_after": 21}
    return Outcome(outcome=name, effect=effect, low=low, high=high, **(usual | more))


def change(what: str, *outcomes: Outcome, verdict: str = "helped", **more: Any) -> Effect:
    """One judged change of the diary."""
    usual: dict[str, Any] = {
        "when": dt.date(2026, 1, 12),
        "kind": "change",
        "touches": ("envelope",),
        "hoped_for": ("warmer nights",),
        "hope_written_before": True,
        "grouped_with": (),
        "at_most": None,
        "reasons": {},
        "line": 3,
    }
    return Effect(what=what, verdict=verdict, outcomes=outcomes, **(usual | more))
