"""The weeks worth heating: what each cost beside what was picked for it."""

from __future__ import annotations

import pandas as pd

from reportgen.charts.types import Drawing
from reportgen.charts.weeks_view import weeks_view
from reportgen.counsel.facts import Facts
from reportgen.counsel.said_balance import heated_weeks, weeks_clause, weeks_words
from reportgen.drawing.weeks import weeks_tall, weeks_wide
from reportgen.review import Review


def worth_drawing(facts: Facts, review: Review) -> list[Drawing]:
    """Heat money of each week above what was picked for it; nothing where no week's heat has a price."""
    balance, w = facts.on.balance, facts.w
    view = weeks_view(review, balance, "harvest_worth")
    if view is None:
        return []
    judged = any(week.needed_share is not None for week in heated_weeks(balance))
    unknown = balance.reasons.get("weeks.needed_share", "")
    cannot = f"Which weeks were worth heating cannot be told: {unknown}." if unknown else ""
    words = weeks_words(balance, facts) if judged else ""
    return [
        Drawing(
            uid="harvest_worth",
            title=weeks_clause(balance) if judged else "Heat money by the week, and what was picked for it",
            subtitle=f"Up: heat of each week, {w.currency}; down: what was picked in it and the four weeks after, at "
            "shop prices",
            label=view.label,
            description=view.description,
            wide=weeks_wide(view),
            narrow=weeks_tall(view),
            table=_weeks_data(facts),
            sure=f"{words[:1].upper()}{words[1:]}." if words else cannot,
        )
    ]


def _weeks_data(facts: Facts) -> pd.DataFrame:
    w = facts.w
    return (
        pd.DataFrame(
            [
                (
                    week.week,
                    week.heat_money,
                    week.needed_share,
                    None if week.kg is None else w.mass_value(week.kg),
                    week.value,
                )
                for week in facts.on.balance.weeks
            ],
            columns=[
                "week",
                f"{w.currency} of heat",
                "share that a crop needed",
                f"{w.mass_unit} in it and four more",
                f"{w.currency} in the shop",
            ],
        )
        .astype({f"{w.currency} of heat": float, "share that a crop needed": float})
        .round(2)
    )
