"""What the winter gave against what it took: the weeks worth heating, and the balance with parts that add up."""

from __future__ import annotations

import pandas as pd

from reportgen.charts.types import Drawing, Table
from reportgen.charts.weeks_view import weeks_view
from reportgen.counsel.facts import KG_PER_LB, Facts
from reportgen.counsel.said_balance import heated_weeks, missing_words, weeks_clause, weeks_words
from reportgen.counsel.the_balance import LEAST
from reportgen.drawing.weeks import weeks_tall, weeks_wide
from reportgen.review import Review
from reportgen.wording import shares

NAMES = (
    ("heat", "heat"),
    ("appliances", "appliances"),
    ("costs", "the costs book"),
    ("changes_by_years", "changes, by their years"),
)


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


def balance_table(facts: Facts) -> list[Table]:
    """The parts of the balance, rounded so that they add up to the printed sum, each also by weight."""
    b, w = facts.on.balance, facts.w
    known = [(words, float(v)) for name, words in NAMES if (v := getattr(b, name)) is not None and abs(v) >= LEAST]
    if b.total is None or not w.currency or len(known) < 2:
        return []
    printed = shares([value for _, value in known], 2)
    by_mass = _by_mass(facts, [value for _, value in known])
    rows = [(words, w.money(value), *each) for (words, _), value, each in zip(known, printed, by_mass, strict=True)]
    total = w.money(b.total)
    rows.append(("in all", total, *([facts.w.money(facts.per_mass(b.per_kg))] if by_mass[0] and b.per_kg else [])))
    if b.shop_value is not None:
        each = [w.money(facts.per_mass(b.shop_value / b.kg))] if by_mass[0] and b.kg else []
        rows.append(("the same in the shop", w.money(b.shop_value), *each))
    weight = (f"for each {w.mass_unit}",) if by_mass[0] else ()
    missing = missing_words(b)
    return [
        Table(
            uid="harvest_balance",
            title=_balance_title(facts),
            subtitle="What is used up counts whole, what lasts by its years",
            columns=("what", "money", *weight),
            rows=tuple(rows),
            data=pd.DataFrame(known, columns=["what", f"{w.currency}"]),
            notes=(f"The sum is {missing}.",) if missing else (),
        )
    ]


def _by_mass(facts: Facts, values: list[float]) -> list[tuple[str, ...]]:
    """Each part by weight, so that these add up too; nothing where nothing was weighed."""
    b = facts.on.balance
    if b.per_kg is None or not b.kg:
        return [() for _ in values]
    scale = (KG_PER_LB if facts.w.us else 1.0) / b.kg
    return [(facts.w.money(value),) for value in shares([value * scale for value in values], 2)]


def _balance_title(facts: Facts) -> str:
    """Which part took most, by its share."""
    b, w = facts.on.balance, facts.w
    known = [(v, words) for name, words in NAMES if (v := getattr(b, name)) is not None]
    most, words = max(known)
    if not b.total or most / b.total < 0.5:
        return f"It took {w.money(b.total or 0.0)} in all"
    return f"{words[:1].upper()}{words[1:]} took {w.percent(100 * most / b.total)} of the {w.money(b.total, 0)}"
