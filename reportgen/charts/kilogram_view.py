"""What the kilogram's bar is told: heat of the dark weeks, other heat, all else, and the shop's price."""

from __future__ import annotations

from reportgen.counsel.facts import Facts
from reportgen.drawing.kilogram import Bar, Kilogram, Piece
from reportgen.review import Review
from reportgen.wording import number, shares


def kilogram_view(review: Review, uid: str = "kilogram") -> Kilogram | None:
    """Money for one kilogram (or pound) picked; None without a harvest, heat's money or a currency."""
    facts = Facts.of(review)
    kg, bars = review.harvest.kg, review.harvest.bars
    if not kg or bars.heat_per_kg is None or not facts.w.currency:
        return None
    whole = bars.everything_per_kg or bars.running_per_kg or bars.heat_per_kg
    dark = review.heat.dark_weeks.cost
    darkest = min(dark / kg, bars.heat_per_kg) if dark else 0.0
    amounts = [darkest, bars.heat_per_kg - darkest, whole - bars.heat_per_kg]
    told = shares([facts.per_mass(a) for a in amounts], 2)
    words = (
        ("heat in the dark weeks", "heat, dark weeks"),
        ("other heat", "other heat") if darkest else ("heat", "heat"),
        ("all else", "all else"),
    )
    looks = (("warm", 1.0), ("warm", 0.55 if darkest else 1.0), ("money", 0.5))
    pieces = tuple(
        Piece(words=long, brief=brief, amount=amount, said=number(amount, 2), token=token, shade=shade)  # type: ignore[arg-type]
        for (long, brief), amount, (token, shade) in zip(words, told, looks, strict=True)
        if amount > 0
    )
    heat, total = sum(told[:2]), sum(told)
    several = sum(p.token == "warm" for p in pieces) > 1
    alone = f"heat alone: {facts.w.money(heat)}" if several and told[2] > 0 else ""
    own = Bar(
        name="From our glasshouse" if _glass(review) else "From our house",
        pieces=pieces,
        said=f"up to {facts.w.money(total)}" if _open(facts) else facts.w.money(total),
        sum_of=2,
        sum_words=alone,
    )
    shop = _shop(review, facts)
    said = f"{facts.w.money(heat)} of heat" + (f", {facts.w.money(total)} in all" if told[2] > 0 else "")
    said = f"up to {said}" if _open(facts) else said
    beside = f"; the shop asks {shop.said}" if shop else ""
    return Kilogram(
        uid=uid,
        label=f"What one {'pound' if facts.w.us else 'kilogram'} cost" + (", beside the shop" if shop else ""),
        description=f"One {'pound' if facts.w.us else 'kilogram'} cost {said}{beside}.",
        bars=(own, *((shop,) if shop else ())),
    )


def _open(facts: Facts) -> bool:
    """Whether it is the upper end: nobody looked what was left of a store."""
    h = facts.r.harvest
    low, each, high = h.cost_per_kg_low, h.cost_per_kg, h.cost_per_kg_high
    return low is not None and each is not None and high is not None and low < each - 0.005 and high < each + 0.005


def _glass(review: Review) -> bool:
    return "glass" in (review.season.house.kind or "").casefold()


def _shop(review: Review, facts: Facts) -> Bar | None:
    """The same from the shop; only where all that was picked has a price there."""
    h = review.harvest
    if not h.kg or h.shop_value is None or not h.priced_share or h.priced_share < 0.999:
        return None
    price = facts.per_mass(h.shop_value / h.kg)
    piece = Piece(words="", brief="", amount=price, said="", token="neutral", shade=0.28)
    return Bar(name="The same from the shop", brief="From the shop", pieces=(piece,), said=facts.w.money(price))
